/** How blurred the card is, measured at the edges of its own corner marks. */
import { FIDUCIALS } from '../core/card/geometry.ts';
import type { Pixels } from './pixels.ts';
import { FLAT_PX_PER_MM } from './strip/grid.ts';

/** Profiles reach this far to either side of an edge, mm: into the frame and into the quiet zone. */
const REACH_MM = 1.6;
/** Along a side, away from its corners, mm. */
const MARGIN_MM = 3;
/** The distance between a quarter and three quarters of a step blurred by a Gaussian is this many sigmas. */
const QUARTILES = 1.349;

/**
 * Blur of the flattened card as the standard deviation of a Gaussian, mm on the card: the median over the
 * outer edges of the corner marks. NaN when no edge has contrast.
 */
export function blurOnCardMm(flat: Pixels): number {
  const blurs = FIDUCIALS.flatMap(({ xMm, yMm, widthMm }) => {
    const middle = [xMm + widthMm / 2, yMm + widthMm / 2] as const;
    return [
      edgeBlur(flat, middle, widthMm, [1, 0]),
      edgeBlur(flat, middle, widthMm, [-1, 0]),
      edgeBlur(flat, middle, widthMm, [0, 1]),
      edgeBlur(flat, middle, widthMm, [0, -1]),
    ];
  }).filter((blur) => Number.isFinite(blur));
  blurs.sort((one, two) => one - two);
  return blurs[blurs.length >> 1] ?? Number.NaN;
}

/** Spread of the edge on one side of a square; `outward` is the side's unit normal. */
function edgeBlur(
  flat: Pixels,
  [xMm, yMm]: readonly [number, number],
  sizeMm: number,
  [nx, ny]: readonly [number, number],
): number {
  const steps = 2 * REACH_MM * FLAT_PX_PER_MM;
  const profile: number[] = [];
  for (let i = 0; i <= steps; i++) {
    const out = sizeMm / 2 - REACH_MM + i / FLAT_PX_PER_MM;
    let sum = 0;
    let count = 0;
    for (let along = -sizeMm / 2 + MARGIN_MM; along <= sizeMm / 2 - MARGIN_MM; along += 0.1) {
      sum += lightAt(flat, xMm + out * nx - along * ny, yMm + out * ny + along * nx);
      count++;
    }
    profile.push(sum / count);
  }
  const dark = Math.min(...profile.slice(0, 8));
  const light = Math.max(...profile.slice(-8));
  if (light - dark < 30) return Number.NaN;
  const at = (share: number) => crossing(profile, dark + share * (light - dark));
  return (at(0.75) - at(0.25)) / QUARTILES / FLAT_PX_PER_MM;
}

/** Where a rising profile first passes a level, in samples. */
function crossing(profile: readonly number[], level: number): number {
  const i = profile.findIndex((value) => value >= level);
  if (i <= 0) return i;
  const before = profile[i - 1]!;
  return i - 1 + (level - before) / (profile[i]! - before);
}

function lightAt(flat: Pixels, xMm: number, yMm: number): number {
  const x = Math.min(flat.width - 1, Math.max(0, Math.floor(xMm * FLAT_PX_PER_MM)));
  const y = Math.min(flat.height - 1, Math.max(0, Math.floor(yMm * FLAT_PX_PER_MM)));
  return flat.data[(y * flat.width + x) * 4 + 1]!;
}
