/**
 * Piecewise cubic Hermite interpolation that keeps the data's monotony and never overshoots
 * (Fritsch & Butland 1984, SIAM J. Sci. Stat. Comput. 5:300-304; ends by the three-point rule, limited).
 * Beyond the ends it goes on straight.
 *
 * @param x strictly rising, at least two
 * @param y one value per x
 */
export function pchip(x: readonly number[], y: readonly number[]): (at: number) => number {
  const slopes = slopesOf(x, y);
  const last = x.length - 1;
  return (at) => {
    if (at <= x[0]!) return y[0]! + slopes[0]! * (at - x[0]!);
    if (at >= x[last]!) return y[last]! + slopes[last]! * (at - x[last]!);
    let i = 0;
    while (at > x[i + 1]!) i++;
    const h = x[i + 1]! - x[i]!;
    const t = (at - x[i]!) / h;
    const t2 = t * t;
    const t3 = t2 * t;
    return (
      (2 * t3 - 3 * t2 + 1) * y[i]! +
      (t3 - 2 * t2 + t) * h * slopes[i]! +
      (3 * t2 - 2 * t3) * y[i + 1]! +
      (t3 - t2) * h * slopes[i + 1]!
    );
  };
}

function slopesOf(x: readonly number[], y: readonly number[]): number[] {
  const n = x.length;
  const h = Array.from({ length: n - 1 }, (_, i) => x[i + 1]! - x[i]!);
  const secant = h.map((width, i) => (y[i + 1]! - y[i]!) / width);
  if (n === 2) return [secant[0]!, secant[0]!];
  const inner = (i: number) => {
    const before = secant[i - 1]!;
    const after = secant[i]!;
    if (before * after <= 0) return 0;
    const w1 = 2 * h[i]! + h[i - 1]!;
    const w2 = h[i]! + 2 * h[i - 1]!;
    return (w1 + w2) / (w1 / before + w2 / after);
  };
  return Array.from({ length: n }, (_, i) => {
    if (i === 0) return endSlope(h[0]!, h[1]!, secant[0]!, secant[1]!);
    if (i === n - 1) return endSlope(h[n - 2]!, h[n - 3]!, secant[n - 2]!, secant[n - 3]!);
    return inner(i);
  });
}

function endSlope(h0: number, h1: number, secant0: number, secant1: number): number {
  const slope = ((2 * h0 + h1) * secant0 - h0 * secant1) / (h0 + h1);
  if (slope * secant0 <= 0) return 0;
  // Only where the secants turn: with both of one direction the rule stays below twice the first.
  if (Math.abs(slope) > 3 * Math.abs(secant0)) return 3 * secant0;
  return slope;
}
