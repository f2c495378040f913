/** A grey picture blurred against noise. */

interface Plane {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** Weights are counted in parts of this. */
const WHOLE = 256;
/** Pixels on each side that are looked at, at most: written out below, because it takes a third of the time so. */
const REACH = 3;

/**
 * Blurs by a Gaussian, cut off at twice its width; beyond its border the picture is mirrored.
 * @param sigmaPx at most 1.5
 */
export function smoothed({ data, width, height }: Plane, sigmaPx: number): Uint8Array {
  const [w0, w1, w2, w3] = weightsOf(sigmaPx);
  const across = new Uint16Array(width * height);
  const row = new Uint8Array(width + 2 * REACH);
  for (let y = 0, at = 0; y < height; y++) {
    row.set(data.subarray(y * width, (y + 1) * width), REACH);
    for (let i = 0; i < REACH; i++) {
      row[i] = data[y * width + mirrored(i - REACH, width)]!;
      row[width + REACH + i] = data[y * width + mirrored(width + i, width)]!;
    }
    for (let x = 0; x < width; x++, at++) {
      across[at] =
        w0 * row[x + 3]! +
        w1 * (row[x + 2]! + row[x + 4]!) +
        w2 * (row[x + 1]! + row[x + 5]!) +
        w3 * (row[x]! + row[x + 6]!);
    }
  }
  const to = new Uint8Array(width * height);
  for (let y = 0, at = 0; y < height; y++) {
    const [a, b, c, d, e, f, g] = [-3, -2, -1, 0, 1, 2, 3].map((k) => mirrored(y + k, height) * width) as Seven;
    for (let x = 0; x < width; x++, at++) {
      const sum =
        w0 * across[d + x]! +
        w1 * (across[c + x]! + across[e + x]!) +
        w2 * (across[b + x]! + across[f + x]!) +
        w3 * (across[a + x]! + across[g + x]!);
      to[at] = Math.min(255, (sum + (WHOLE * WHOLE) / 2) >> 16);
    }
  }
  return to;
}

type Seven = [number, number, number, number, number, number, number];

/** Of the middle, and of the pixels at one, two and three from it. */
function weightsOf(sigmaPx: number): [number, number, number, number] {
  const reach = Math.ceil(2 * sigmaPx);
  if (reach > REACH) throw new RangeError(`a blur of ${sigmaPx} px reaches too far`);
  const plain = [0, 1, 2, 3].map((from) => (from > reach ? 0 : Math.exp(-(from ** 2) / (2 * sigmaPx ** 2))));
  const sum = plain.reduce((all, one, from) => all + (from === 0 ? one : 2 * one), 0);
  return plain.map((one) => Math.round((WHOLE * one) / sum)) as [number, number, number, number];
}

/** The border's own pixels aren't repeated. */
function mirrored(index: number, length: number): number {
  if (length === 1) return 0;
  const period = 2 * (length - 1);
  const at = ((index % period) + period) % period;
  return at < length ? at : period - at;
}
