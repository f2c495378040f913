/**
 * Is this the printed card of the teaching photo, or another print of it?
 *
 * Light and camera change the colours of printed patches, and so does another printer, paper or day at the press:
 * by about as much, but not in the same way. Four patterns over the eighteen patches tell the two apart best.
 *
 * They are the leading solutions of C1 v = lambda C0 v, with C0 and C1 the mean squares of the patches' Lab changes
 * between two photos of the same and of two different prints, 0.7 added to each standard deviation, over simulated
 * everyday lights, the calibration phones and home printers (`npm run accuracy` measures how well they tell). Same prints have a mean square of 1 along each.
 */
import type { IdentifiedPair } from './anchors.ts';
import { linearToLab, type Triple } from './lab.ts';

/** Sum of squares along the patterns from which the prints are taken for two. */
export const ANOTHER_PRINT = 12;

/** For each patch, its share in each of the four patterns: L*, a*, b*. */
const PATTERNS: Readonly<Record<string, readonly Triple[]>> = {
  at1: [
    [0.064, -0.054, 0.108],
    [0.085, -0.186, -0.019],
    [-0.035, -0.184, 0.157],
    [0.166, -0.146, -0.002],
  ],
  at2: [
    [-0.084, 0.097, -0.108],
    [-0.03, -0.107, -0.061],
    [0.048, 0.013, 0.025],
    [-0.01, 0.316, 0.072],
  ],
  at3: [
    [0.083, 0.082, -0.024],
    [-0.075, -0.04, 0.074],
    [0.01, -0.108, -0.011],
    [-0.096, 0.106, -0.005],
  ],
  at4: [
    [-0.15, 0.026, 0.033],
    [-0.068, -0.205, 0.065],
    [-0.017, 0.007, 0.058],
    [-0.014, 0.198, 0.023],
  ],
  at5: [
    [0.039, -0.238, 0.119],
    [0.097, -0.15, 0.038],
    [-0.075, -0.072, 0.205],
    [0.094, 0.001, -0.021],
  ],
  at6: [
    [-0.442, -0.112, 0.023],
    [0.045, -0.195, -0.11],
    [0.31, 0.101, -0.012],
    [-0.053, 0.007, 0.102],
  ],
  at7: [
    [-0.39, 0.16, 0.139],
    [0.034, 0.035, -0.098],
    [-0.056, 0.114, -0.019],
    [0.18, -0.07, 0.062],
  ],
  at8: [
    [0.023, 0.128, -0.003],
    [-0.053, 0.005, -0.047],
    [0.061, 0.034, -0.096],
    [-0.085, 0.295, -0.077],
  ],
  at9: [
    [-0.357, 0.042, -0.058],
    [-0.047, -0.309, -0.096],
    [0.032, 0.15, 0.121],
    [-0.068, -0.225, -0.071],
  ],
  ab1: [
    [0.074, -0.076, 0.039],
    [-0.025, -0.102, -0.054],
    [-0.025, 0.04, -0.027],
    [-0.061, 0.019, -0.017],
  ],
  ab2: [
    [-0.213, 0.052, 0.002],
    [-0.041, -0.329, -0.047],
    [0.002, -0.007, 0.029],
    [0.067, 0.025, 0.034],
  ],
  ab3: [
    [-0.071, -0.026, -0.033],
    [0.055, -0.064, 0.012],
    [-0.082, -0.048, 0.143],
    [0.047, -0.037, 0.041],
  ],
  ab4: [
    [-0.166, -0.011, 0.107],
    [-0.013, -0.144, -0.198],
    [0.168, 0.115, -0.073],
    [-0.151, 0.245, -0.003],
  ],
  ab5: [
    [-0.451, 0.206, -0.031],
    [-0.064, -0.139, -0.428],
    [-0.093, 0.414, 0.153],
    [0.064, 0.013, -0.197],
  ],
  ab6: [
    [0.051, 0.109, -0.16],
    [-0.004, -0.281, 0.068],
    [-0.076, -0.166, 0.149],
    [0.031, -0.098, -0.019],
  ],
  ab7: [
    [-0.02, -0.009, 0.056],
    [0.014, -0.1, 0.046],
    [0.158, -0.15, -0.113],
    [-0.178, 0.095, -0.146],
  ],
  ab8: [
    [0.096, -0.11, -0.034],
    [0.046, -0.053, 0.032],
    [-0.003, -0.091, 0.223],
    [0.057, -0.058, 0.168],
  ],
  ab9: [
    [-0.378, 0.055, 0.095],
    [0.058, -0.062, -0.053],
    [0.315, 0.001, 0.34],
    [-0.084, -0.334, 0.33],
  ],
};

/** @returns about 4 for the same print in another light, 12 and far more for another print */
export function unlikeSamePrint(anchors: readonly IdentifiedPair[]): number {
  const along = [0, 0, 0, 0];
  for (const { id, from, to } of anchors) {
    const [before, after] = [linearToLab(to), linearToLab(from)];
    PATTERNS[id]?.forEach((weights, k) => {
      along[k]! += weights.reduce((sum, weight, c) => sum + weight * (after[c]! - before[c]!), 0);
    });
  }
  return along.reduce((sum, value) => sum + value * value, 0);
}
