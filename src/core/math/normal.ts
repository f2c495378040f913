/** The standard normal distribution. */

export function normalDensity(z: number): number {
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
}

/**
 * Share of a standard normal below z, to a relative 1.2e-7 also far out: the complementary error function by its
 * Chebyshev fit (Press et al., Numerical Recipes, 2nd ed. 1992, section 6.2, `erfcc`).
 */
export function normalShare(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + x / 2);
  const tail = t * Math.exp(-x * x + ERFC.reduceRight((sum, coefficient) => sum * t + coefficient, 0));
  return z >= 0 ? 1 - tail / 2 : tail / 2;
}

const ERFC = [
  -1.26551223, 1.00002368, 0.37409196, 0.09678418, -0.18628806, 0.27886807, -1.13520398, 1.48851587, -0.82215223,
  0.17087277,
];
