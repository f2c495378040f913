/** How alkalinity buffers: drops of acid into a bucket of pool water, and what its pH does. */
import { add } from '../../core/water/moves/add.ts';
import { hydrochloricMmolPerMl } from '../../core/water/strength.ts';
import { waterOf, type Water } from '../../core/water/water.ts';
import { drawPlot, line, plot, spot, steps, text, valueAtX, type Point } from './chart.ts';
import { numberText } from '../../words/numbers.ts';
import type { Control, Instrument, Settings } from './instrument.ts';

export const controls: readonly Control[] = [
  { name: 'drops', label: 'Drops of acid', unit: '', min: 0, max: 40, step: 1, start: 6 },
  { name: 'alkalinity', label: 'Total alkalinity', unit: 'mg/L', min: 20, max: 240, step: 10, start: 80 },
  { name: 'ph', label: 'pH to begin with', unit: '', min: 7, max: 8.4, step: 0.1, start: 7.8 },
  { name: 'stabilizer', label: 'Stabilizer', unit: 'mg/L', min: 0, max: 100, step: 10, start: 0 },
];

const BUCKET_LITRES = 10;
/** A drop is twenty to the millilitre; from memory, unverified. */
const DROP_ML = 1 / 20;
const ACID_PERCENT = 31.45;
/** mmol/L that one drop brings to the bucket. */
export const MMOL_PER_DROP = (DROP_ML * hydrochloricMmolPerMl(ACID_PERCENT)) / BUCKET_LITRES;
/** A water to compare with, mg/L of alkalinity. */
const OTHERS = [40, 160];
const LOWEST_PH = 4;

const chart = plot(
  { from: 0, to: 40, ticks: [0, 10, 20, 30, 40], name: 'drops of acid in a bucket of 10 litres' },
  { from: LOWEST_PH, to: 8.5, ticks: [4, 5, 6, 7, 8], name: 'pH' },
);

export const alkalinityBuffer: Instrument = {
  controls,
  mine: { ph: 'ph', 'total-alkalinity': 'alkalinity', 'cyanuric-acid': 'stabilizer' },
  show(settings) {
    const after = afterDrops(settings, settings['drops']!);
    const answer = after
      ? `After ${settings['drops']} drops the pH is ${numberText(after.ph, { decimals: 1 })} and ${Math.max(0, Math.round(after.totalAlkalinity))} mg/L of alkalinity is left. ${firstDrop(settings)}`
      : 'So much stabilizer can’t go with so little alkalinity at this pH: one of these readings is wrong.';
    const others = OTHERS.filter((alkalinity) => alkalinity !== settings['alkalinity']).flatMap((alkalinity) => {
      const points = curve({ ...settings, alkalinity });
      const end = points.at(-1);
      if (!end) return [];
      const [x, y] = [chart.x(end[0]), chart.y(end[1])];
      const label = `${alkalinity} mg/L`;
      const inside = x < 330;
      return [
        line(chart, points, 'other'),
        inside ? text(x + 5, y - 3, label, 'start', 'name') : text(x, y - 6, label, 'end', 'name'),
      ];
    });
    const here = after ? [spot(chart, [settings['drops']!, Math.max(LOWEST_PH, after.ph)])] : [];
    return { picture: drawPlot(chart, answer, ...others, line(chart, curve(settings)), ...here), answer };
  },
  drag: { axes: 'x', to: (x) => ({ drops: valueAtX(chart, x) }) },
};

/** The bucket after so many drops, nothing going to the air; null where the readings contradict each other. */
export function afterDrops({ ph, alkalinity, stabilizer }: Settings, drops: number): Water | null {
  const water = waterOf({
    ph: ph!,
    totalAlkalinity: alkalinity!,
    calciumHardness: 250,
    salt: 1000,
    cyanuricAcid: stabilizer!,
  });
  try {
    return add(water, 'hydrochloric-acid', drops * MMOL_PER_DROP);
  } catch {
    return null;
  }
}

/** Down to where pool water never goes. */
function curve(settings: Settings): Point[] {
  const points: Point[] = [];
  for (const drops of steps(0, 40, 80)) {
    const after = afterDrops(settings, drops);
    if (!after || after.ph < LOWEST_PH) break;
    points.push([drops, after.ph]);
  }
  return points;
}

function firstDrop(settings: Settings): string {
  const [before, after] = [afterDrops(settings, settings['drops']!), afterDrops(settings, settings['drops']! + 1)];
  if (!before || !after) return '';
  return `One drop more takes ${numberText(before.ph - after.ph, { decimals: 2 })} off the pH.`;
}
