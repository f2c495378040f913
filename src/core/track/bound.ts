/**
 * A test that only says 'more than' or 'less than'. The chance that it says so, a normal distribution function of the
 * true value, is replaced by the number that moves mean and variance of the estimate as it would (moment matching:
 * Minka, Expectation propagation, 2001; Rasmussen & Williams, Gaussian Processes for Machine Learning, 2006, eq. 3.85
 * to 3.87).
 */
import { normalDensity, normalShare } from '../math/normal.ts';

/**
 * @param mean of what is measured, before this test
 * @param variance of it
 * @param bound the value at which the test says so half of the time
 * @param deviation how gradually that comes
 * @param side 'above': the truth lies above the bound
 * @returns a number and its error's variance to observe instead; null where the test tells nothing new
 */
export function numberForBound(
  mean: number,
  variance: number,
  bound: number,
  deviation: number,
  side: 'above' | 'below',
): { readonly value: number; readonly variance: number } | null {
  const sign = side === 'above' ? 1 : -1;
  const spread = Math.sqrt(deviation ** 2 + variance);
  const z = (sign * (mean - bound)) / spread;
  const ratio = hazard(z);
  const newMean = mean + (sign * variance * ratio) / spread;
  const newVariance = variance - (variance ** 2 / spread ** 2) * ratio * (z + ratio);
  const precision = 1 / newVariance - 1 / variance;
  if (!(precision > 1e-9 / variance)) return null;
  return { value: (newMean / newVariance - mean / variance) / precision, variance: 1 / precision };
}

/** Density over share; far out by its asymptotic series (Abramowitz & Stegun 26.2.12), where both vanish. */
function hazard(z: number): number {
  if (z > -12) return normalDensity(z) / normalShare(z);
  const square = z * z;
  return -z / (1 - 1 / square + 3 / square ** 2 - 15 / square ** 3);
}
