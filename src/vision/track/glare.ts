/** Does a pad mirror a light? Such places are far brighter than the pad, and nearly white. */
import { FLAT_PX_PER_MM } from '../flatten.ts';
import type { Outline } from '../patch.ts';
import type { Pixels } from '../pixels.ts';

/** The pad's own level is that of its darker places, for a reflection may cover most of it. */
const OWN_SHARE = 0.08;
/** Levels (0-255) that the darkest channel rises above the pad's own, and the least that it then has. */
const MIN_RISE = 45;
const MIN_LEVEL = 170;
/** Share of the pad that a glint may take: the reader leaves glints out, but not half a pad. */
const MAX_SHARE = 0.1;
/** Samples along each side of the pad. */
const SIDE = 16;
/** Left out along every side, share of its length: the white plastic beside the pad. */
const INSET = 0.2;

/** @param flat the card at FLAT_PX_PER_MM */
export function isGlaring(flat: Pixels, pad: Outline): boolean {
  const levels = new Uint8Array(SIDE * SIDE);
  for (let i = 0; i < levels.length; i++) {
    const u = INSET + ((1 - 2 * INSET) * ((i % SIDE) + 0.5)) / SIDE;
    const v = INSET + ((1 - 2 * INSET) * (Math.floor(i / SIDE) + 0.5)) / SIDE;
    levels[i] = darkestChannel(flat, inside(pad, 0, u, v), inside(pad, 1, u, v));
  }
  const own = levels.slice().sort()[Math.floor(OWN_SHARE * levels.length)]!;
  const limit = Math.max(MIN_LEVEL, own + MIN_RISE);
  return levels.filter((level) => level >= limit).length > MAX_SHARE * levels.length;
}

/** Between the four corners, in proportion; mm. */
function inside([a, b, c, d]: Outline, axis: 0 | 1, u: number, v: number): number {
  return (a[axis] * (1 - u) + b[axis] * u) * (1 - v) + (d[axis] * (1 - u) + c[axis] * u) * v;
}

function darkestChannel({ data, width, height }: Pixels, xMm: number, yMm: number): number {
  const x = Math.min(Math.max(Math.floor(xMm * FLAT_PX_PER_MM), 0), width - 1);
  const y = Math.min(Math.max(Math.floor(yMm * FLAT_PX_PER_MM), 0), height - 1);
  const at = (y * width + x) * 4;
  return Math.min(data[at]!, data[at + 1]!, data[at + 2]!);
}
