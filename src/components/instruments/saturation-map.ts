/** Where a water lies between etching and scaling, over pH and alkalinity. */
import { saturationIndex } from '../../core/water/saturation.ts';
import { waterOf } from '../../core/water/water.ts';
import type { SvgNode } from '../svg.ts';
import { drawPlot, line, plot, spot, steps, text, valueAtX, valueAtY, type Point } from './chart.ts';
import { signed } from '../../words/figures.ts';
import { numberText } from '../../words/numbers.ts';
import type { Control, Instrument, Settings } from './instrument.ts';

export const controls: readonly Control[] = [
  { name: 'ph', label: 'pH', unit: '', min: 6.8, max: 8.4, step: 0.05, start: 7.6 },
  { name: 'alkalinity', label: 'Total alkalinity', unit: 'mg/L', min: 20, max: 240, step: 5, start: 80 },
  { name: 'hardness', label: 'Calcium hardness', unit: 'mg/L', min: 20, max: 800, step: 10, start: 250 },
  { name: 'celsius', label: 'Temperature', unit: '°C', min: 2, max: 40, step: 1, start: 26 },
  { name: 'salt', label: 'Salt', unit: 'mg/L', min: 0, max: 6000, step: 100, start: 3000 },
  { name: 'stabilizer', label: 'Stabilizer', unit: 'mg/L', min: 0, max: 150, step: 5, start: 30 },
];

/** The band that pool operators are taught to keep. */
const BAND = { low: -0.3, high: 0.3 } as const;
const LEVELS = [-0.6, BAND.low, 0, BAND.high, 0.6];

const chart = plot(
  {
    from: 6.8,
    to: 8.4,
    ticks: [6.8, 7, 7.2, 7.4, 7.6, 7.8, 8, 8.2, 8.4],
    name: 'pH',
    say: (x) => numberText(x, { decimals: 1 }),
  },
  { from: 20, to: 240, ticks: [40, 80, 120, 160, 200, 240], name: 'total alkalinity, mg/L' },
  400,
  270,
);

export const saturationMap: Instrument = {
  controls,
  mine: {
    ph: 'ph',
    'total-alkalinity': 'alkalinity',
    'total-hardness': 'hardness',
    'cyanuric-acid': 'stabilizer',
    salt: 'salt',
  },
  show(settings) {
    const index = tryIndex(settings);
    const answer =
      index === null
        ? 'So much stabilizer can’t go with so little alkalinity at this pH: one of these readings is wrong.'
        : `The index of this water is ${signed(index)}: ${wordOf(index)}`;
    const lines = LEVELS.flatMap((level) => contour(settings, level));
    const here = spot(chart, [settings['ph']!, settings['alkalinity']!]);
    return { picture: drawPlot(chart, answer, ...lines, here), answer };
  },
  drag: { axes: 'xy', to: (x, y) => ({ ph: valueAtX(chart, x), alkalinity: valueAtY(chart, y) }) },
};

export function indexOf(settings: Settings): number {
  return saturationIndex(
    waterOf({
      ph: settings['ph']!,
      totalAlkalinity: settings['alkalinity']!,
      calciumHardness: settings['hardness']!,
      temperatureC: settings['celsius']!,
      salt: settings['salt']!,
      cyanuricAcid: settings['stabilizer']!,
    }),
  );
}

function wordOf(index: number): string {
  if (index < BAND.low) return 'it is hungry and takes lime from plaster and grout.';
  if (index > BAND.high) return 'it is full and can leave scale, first in the heater.';
  return 'near balance.';
}

/** The line of one index: for each alkalinity the pH that gives it, where that lies on the map. */
function contour(settings: Settings, level: number): SvgNode[] {
  const { x, y } = chart;
  const points = steps(20, 240, 22).flatMap((alkalinity): Point[] => {
    const ph = phOf({ ...settings, alkalinity }, level);
    return ph === null ? [] : [[ph, alkalinity]];
  });
  const top = points.at(-1);
  if (points.length < 2 || !top) return [];
  const name = level === 0 ? 'curve' : level === BAND.low || level === BAND.high ? 'limit' : 'other';
  return [line(chart, points, name), text(Math.max(62, x(top[0])), y(top[1]) - 4, signed(level), 'middle')];
}

function phOf(settings: Settings, level: number): number | null {
  const excess = (ph: number) => {
    const index = tryIndex({ ...settings, ph });
    return index === null ? -Infinity : index - level;
  };
  let [low, high] = [6.8, 8.4];
  if (excess(low) > 0 || excess(high) < 0) return null;
  for (let i = 0; i < 14; i++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/** Null where so much stabilizer can't go with so little alkalinity at that pH. */
function tryIndex(settings: Settings): number | null {
  try {
    return indexOf(settings);
  } catch {
    return null;
  }
}
