/** The share of free chlorine that is active, against pH, stabilizer and temperature. */
import { activeChlorine, chlorineShares, type ChlorineWater } from '../../core/water/chlorine.ts';
import { milligrams, percent } from '../../words/figures.ts';
import { drawPlot, line, plot, spot, steps, text, valueAtX } from './chart.ts';
import { numberText } from '../../words/numbers.ts';
import type { Control, Instrument, Settings } from './instrument.ts';

export const controls: readonly Control[] = [
  { name: 'ph', label: 'pH', unit: '', min: 6.6, max: 8.6, step: 0.05, start: 7.5 },
  { name: 'stabilizer', label: 'Stabilizer', unit: 'mg/L', min: 0, max: 150, step: 5, start: 30 },
  { name: 'chlorine', label: 'Free chlorine', unit: 'mg/L', min: 0.5, max: 12, step: 0.5, start: 3 },
  { name: 'celsius', label: 'Temperature', unit: '°C', min: 5, max: 35, step: 1, start: 25 },
];

/** Curves to compare with, mg/L of stabilizer. */
const OTHERS = [0, 30, 100];

const chart = plot(
  { from: 6.6, to: 8.6, ticks: [6.6, 7, 7.4, 7.8, 8.2, 8.6], name: 'pH', say: (x) => numberText(x, { decimals: 1 }) },
  {
    from: 0.001,
    to: 1,
    log: true,
    ticks: [0.001, 0.01, 0.1, 1],
    name: 'share of free chlorine at work',
    say: (x) => `${numberText(100 * x, { figures: 1 })} %`,
  },
);

export const activeChlorineInstrument: Instrument = {
  controls,
  mine: { ph: 'ph', 'free-chlorine': 'chlorine', 'cyanuric-acid': 'stabilizer' },
  show(settings) {
    const { by1974, by2019, share } = activeOf(settings);
    const { bound } = chlorineShares(waterFrom(settings));
    const chlorine = settings['chlorine']!;
    const lowest = settings['stabilizer'] === 0 ? '' : ` By the newer constants it is ${milligrams(by2019)}.`;
    const answer =
      `${percent(share)} of the free chlorine is at work: ${milligrams(by1974)} of ${chlorine} mg/L.${lowest} ` +
      `Stabilizer holds ${percent(bound / chlorine)} in store.`;
    const curve = (stabilizer: number) =>
      steps(6.6, 8.6, 40).map((ph) => [ph, Math.max(0.001, activeOf({ ...settings, ph, stabilizer }).share)] as const);
    const others = OTHERS.filter((stabilizer) => stabilizer !== settings['stabilizer']).flatMap((stabilizer) => {
      const points = curve(stabilizer);
      const [x, y] = points[26]!;
      return [
        line(chart, points, 'other'),
        text(
          chart.x(x),
          chart.y(y) + (stabilizer > 60 ? 15 : -6),
          stabilizer === 0 ? 'no stabilizer' : `${stabilizer} mg/L`,
          'start',
          'name',
        ),
      ];
    });
    const here = spot(chart, [settings['ph']!, Math.max(0.001, share)]);
    return { picture: drawPlot(chart, answer, ...others, line(chart, curve(settings['stabilizer']!)), here), answer };
  },
  drag: { axes: 'x', to: (x) => ({ ph: valueAtX(chart, x) }) },
};

export function activeOf(settings: Settings) {
  return activeChlorine(waterFrom(settings));
}

function waterFrom({ ph, chlorine, stabilizer, celsius }: Settings): ChlorineWater {
  return { ph: ph!, freeChlorine: chlorine!, cyanuricAcid: stabilizer!, temperatureC: celsius! };
}
