/** A grey picture blurred against noise. */

interface Plane {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** Weights are counted in parts of this. */
const WHOLE = 256;

/** A Gaussian of so many px, cut off at twice its width; beyond its border the picture is mirrored. */
export function smoothed({ data, width, height }: Plane, sigmaPx: number): Uint8Array {
  const weights = weightsOf(sigmaPx);
  const reach = weights.length >> 1;
  const across = new Uint16Array(width * height);
  const places = Int32Array.from({ length: width + 2 * reach }, (_, i) => mirrored(i - reach, width));
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      let sum = 0;
      for (let k = 0; k < weights.length; k++) sum += weights[k]! * data[y * width + places[x + k]!]!;
      across[at] = sum;
    }
  }
  const to = new Uint8Array(width * height);
  const rows = Int32Array.from({ length: weights.length }, () => 0);
  for (let y = 0, at = 0; y < height; y++) {
    for (let k = 0; k < rows.length; k++) rows[k] = mirrored(y + k - reach, height) * width;
    for (let x = 0; x < width; x++, at++) {
      let sum = (WHOLE * WHOLE) / 2;
      for (let k = 0; k < weights.length; k++) sum += weights[k]! * across[rows[k]! + x]!;
      to[at] = Math.min(255, sum / (WHOLE * WHOLE));
    }
  }
  return to;
}

function weightsOf(sigmaPx: number): Int32Array {
  const reach = Math.ceil(2 * sigmaPx);
  const plain = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sigmaPx ** 2)));
  const sum = plain.reduce((all, one) => all + one, 0);
  return Int32Array.from(plain, (one) => Math.round((WHOLE * one) / sum));
}

/** The border's own pixels aren't repeated. */
function mirrored(index: number, length: number): number {
  if (length === 1) return 0;
  const period = 2 * (length - 1);
  const at = ((index % period) + period) % period;
  return at < length ? at : period - at;
}
