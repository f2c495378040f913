/** Hours a chlorinator has to run in a day. */
import { chlorinatorHours } from '../../core/pool/chlorinator.ts';
import { svg, type SvgNode } from '../svg.ts';
import { text } from './chart.ts';
import { numberText } from '../../words/numbers.ts';
import type { Control, Instrument, Settings } from './instrument.ts';

export const controls: readonly Control[] = [
  { name: 'volume', label: 'Pool', unit: 'm³', min: 5, max: 100, step: 0.5, start: 28.5 },
  { name: 'use', label: 'Chlorine used in a day', unit: 'mg/L', min: 0.5, max: 8, step: 0.1, start: 2 },
  { name: 'output', label: 'The cell’s output', unit: 'g/h', min: 2, max: 50, step: 1, start: 12 },
  { name: 'setting', label: 'Set to', unit: '%', min: 10, max: 100, step: 5, start: 100 },
];

export const chlorinatorHoursInstrument: Instrument = {
  controls,
  show(settings) {
    const { hours, beyondDay } = hoursOf(settings);
    const said = hours < 10 ? numberText(hours, { decimals: 1 }) : String(Math.round(hours));
    const answer = beyondDay
      ? `It would take ${said} hours a day, and a day has 24: this cell can’t keep up. Turn it up, cover the pool, or look at the stabilizer.`
      : `About ${said} hours a day. The pool uses ${grams(settings)} g of chlorine in that day.`;
    return { picture: picture(hours, answer), answer };
  },
};

export function hoursOf({ volume, use, output, setting }: Settings) {
  return chlorinatorHours(
    volume! * 1000,
    { value: use!, low: use!, high: use! },
    { gramsPerHour: output!, setting: setting! / 100 },
  );
}

function grams({ volume, use }: Settings): string {
  return numberText(volume! * use!, { decimals: 0 });
}

/** A day as a ruled line; the hours it runs are hatched. */
function picture(hours: number, label: string): SvgNode {
  const [left, right, top, bottom] = [14, 386, 22, 58];
  const x = (hour: number) => left + ((right - left) * hour) / 24;
  const run = Math.min(24, hours);
  const marks = [0, 6, 12, 18, 24];
  const hatch = Array.from({ length: Math.floor((x(run) - left) / 7) + 1 }, (_, i) => left + 7 * i);
  return svg(
    'svg',
    { class: 'drawing chart', viewBox: '0 0 400 96', role: 'img', 'aria-label': label },
    svg('path', { d: `M${left} ${top}H${right}V${bottom}H${left}Z` }),
    svg('path', { class: 'accent', d: `M${left} ${top}H${x(run).toFixed(1)}V${bottom}H${left}Z` }),
    svg('path', {
      class: 'accent thin',
      d: hatch
        .filter((from) => from < x(run))
        .map((from) => {
          const to = Math.min(x(run), from + (bottom - top));
          return `M${from} ${bottom}L${to.toFixed(1)} ${(bottom - (to - from)).toFixed(1)}`;
        })
        .join(''),
    }),
    svg('path', { d: marks.map((hour) => `M${x(hour)} ${bottom}v6`).join('') }),
    ...marks.map((hour) => text(x(hour), bottom + 19, `${hour} h`, 'middle')),
    text(left, 14, 'one day', 'start', 'name'),
    ...(hours > 24 ? [text(right, 14, `and ${Math.ceil(hours - 24)} h more`, 'end', 'name')] : []),
  );
}
