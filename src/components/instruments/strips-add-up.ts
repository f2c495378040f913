/** What several strips of one scale know together: what differs from photo to photo averages out, what they share doesn't. */
import { drawPlot, line, plot, spot, valueAtX } from './chart.ts';
import type { Control, Instrument, Settings } from './instrument.ts';

export const controls: readonly Control[] = [
  { name: 'strips', label: 'Strips so far', unit: '', min: 1, max: 12, step: 1, start: 3 },
  { name: 'bias', label: 'What the scale always gets wrong', unit: 'mg/L', min: -20, max: 20, step: 1, start: 10 },
  { name: 'drops', label: 'Drop tests', unit: '', min: 0, max: 1, step: 1, start: 0 },
];

/** mg/L: what is in the water of the example, and the errors of a test, one standard deviation each. */
export const TRUTH = 90;
export const FROM_PHOTO = 10;
export const SHARED = 8;
export const DROP_TEST = 5;
/** One draw for each strip, of mean 0 and spread 1, so that the picture is the same for everybody. */
const DRAWS = [0.9, -1.2, 0.4, 1.5, -0.7, -0.3, 1.1, -1.4, 0.2, 0.8, -0.9, -0.4] as const;
const Z90 = 1.645;

export interface Known {
  readonly mean: number;
  /** One standard deviation. */
  readonly deviation: number;
}

/**
 * The mean of `strips` readings that share an error, and a drop test that doesn't: variance s² + p² / n of the strips
 * (Bevington & Robinson, Data Reduction and Error Analysis, 3rd ed. 2003, chapter 3, from memory), weighed by it.
 */
export function knownAfter({ strips, bias, drops }: Settings): Known {
  const readings = DRAWS.slice(0, strips!).map((draw) => TRUTH + bias! + FROM_PHOTO * draw);
  const mean = readings.reduce((sum, reading) => sum + reading, 0) / readings.length;
  const variance = SHARED ** 2 + FROM_PHOTO ** 2 / readings.length;
  if (drops === 0) return { mean, deviation: Math.sqrt(variance) };
  const [byStrips, byDrops] = [1 / variance, 1 / DROP_TEST ** 2];
  const precision = byStrips + byDrops;
  return { mean: (mean * byStrips + TRUTH * byDrops) / precision, deviation: 1 / Math.sqrt(precision) };
}

const chart = plot(
  { from: 1, to: 12, ticks: [1, 2, 4, 6, 8, 10, 12], name: 'strips' },
  { from: 50, to: 130, ticks: [50, 70, 90, 110, 130], name: 'alkalinity, mg/L' },
);

export const stripsAddUp: Instrument = {
  controls,
  show(settings) {
    const { mean, deviation } = knownAfter(settings);
    const counts = Array.from({ length: settings['strips']! }, (_, i) => i + 1);
    const along = (side: number) =>
      counts.map((strips) => {
        const known = knownAfter({
          ...settings,
          strips,
          drops: strips === settings['strips'] ? settings['drops']! : 0,
        });
        return [strips, held(known.mean + side * Z90 * known.deviation)] as const;
      });
    const half = Z90 * deviation;
    const answer = `The water has ${TRUTH} mg/L. ${settings['strips'] === 1 ? 'One strip says' : `${settings['strips']} strips say`}${settings['drops'] ? ', with one drop test,' : ''} ${Math.round(mean)} mg/L, likely ${Math.round(mean - half)} to ${Math.round(mean + half)}. However many strips, the band stays wider than ${Math.round(2 * Z90 * SHARED)} mg/L without a drop test.`;
    const truth = line(
      chart,
      [
        [1, TRUTH],
        [12, TRUTH],
      ],
      'limit',
    );
    const spotAt = [settings['strips']!, held(mean)] as const;
    return {
      picture: drawPlot(chart, answer, truth, line(chart, along(-1)), line(chart, along(1)), spot(chart, spotAt)),
      answer,
    };
  },
  drag: { axes: 'x', to: (x) => ({ strips: Math.round(valueAtX(chart, x)) }) },
};

function held(value: number): number {
  return Math.min(130, Math.max(50, value));
}
