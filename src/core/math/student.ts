/** Student's t. */

/** Standard normal quantile of 0.95: Abramowitz & Stegun, table 26.5. */
const Z95 = 1.644853627;

/**
 * What a mean with `freedom` degrees of freedom must be widened by for a two-sided 90 % interval. One and two degrees
 * in closed form, others by the expansion of Abramowitz & Stegun 26.7.5, which is good to 0.2 % from three on.
 * @param freedom whole, at least 1
 */
export function t90(freedom: number): number {
  if (freedom === 1) return Math.tan(0.45 * Math.PI);
  if (freedom === 2) return 0.9 / Math.sqrt(2 * 0.95 * 0.05);
  const z = Z95;
  const g1 = (z ** 3 + z) / 4;
  const g2 = (5 * z ** 5 + 16 * z ** 3 + 3 * z) / 96;
  const g3 = (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / 384;
  const g4 = (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / 92_160;
  return z + g1 / freedom + g2 / freedom ** 2 + g3 / freedom ** 3 + g4 / freedom ** 4;
}
