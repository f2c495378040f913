/** A place and the value there. */
export type Place = readonly [x: number, value: number];

/**
 * Root of a continuous function between two places where its sign differs, by Ridders' method (Ridders 1979, IEEE
 * Trans. Circuits Syst. 26:979-980), which never leaves the bracket.
 * @returns null when the sign doesn't differ or a value isn't a number
 */
export function bracketedRoot(f: (x: number) => number, from: Place, to: Place, tolerance: number): number | null {
  let [low, fLow] = from;
  let [high, fHigh] = to;
  if (fLow === 0) return low;
  if (fHigh === 0) return high;
  if (!(fLow * fHigh < 0)) return null;
  let last = Infinity;
  for (let i = 0; i < 100; i++) {
    const middle = (low + high) / 2;
    const fMiddle = f(middle);
    const scale = Math.sqrt(fMiddle * fMiddle - fLow * fHigh);
    if (!(scale > 0)) return Number.isNaN(scale) ? null : middle;
    const x = middle + ((middle - low) * Math.sign(fLow - fHigh) * fMiddle) / scale;
    if (Math.abs(x - last) <= tolerance) return x;
    last = x;
    const fX = f(x);
    if (fX === 0) return x;
    if (fMiddle * fX < 0) {
      low = middle;
      fLow = fMiddle;
      high = x;
      fHigh = fX;
    } else if (fLow * fX < 0) {
      high = x;
      fHigh = fX;
    } else {
      low = x;
      fLow = fX;
    }
    if (Math.abs(high - low) <= tolerance) return x;
  }
  return last;
}
