/** Where along the strip its pads lie, and which end they are at. */
import { SLOT } from '../../core/card/geometry.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { Pixels } from '../pixels.ts';
import type { Axis } from './axis.ts';
import type { Background } from './grid.ts';
import { type Profile, profileAlong, type Run, stripRun, unlikeBase } from './profile.ts';

/** Place of the strip on the card: its pad end, and the direction from there towards the other end. */
export interface StripPose {
  readonly endXMm: number;
  readonly endYMm: number;
  /** Unit vector along the strip, away from the pad end. */
  readonly along: readonly [number, number];
  readonly reversed: boolean;
  /** How much more the pads differ from the plastic than the gaps do, 0 to about 0.5. */
  readonly contrast: number;
}

const LEAST_CONTRAST = 0.02;
/** How far the strip's end may lie from where the strip seems to end, mm, and what that costs in contrast per mm2. */
const END_SLACK_MM = 3;
const OFF_END_COST = 0.002;

/** @returns null when no place along the axis has pads where the scale has them */
export function findPads(flat: Pixels, axis: Axis, background: Background, scale: StripScale): StripPose | null {
  const profile = profileAlong(flat, axis, background, scale.strip.widthMm);
  const run = stripRun(profile);
  if (!run) return null;
  const unlike = unlikeBase(profile, run);
  const candidates = [false, true].flatMap((reversed) => placesFor(profile, run, unlike, scale, reversed));
  const best = candidates.sort((one, two) => two.score - one.score)[0];
  if (!best || best.contrast < LEAST_CONTRAST) return null;
  const length = Math.hypot(1, axis.slope);
  const [ux, uy] = [1 / length, axis.slope / length];
  const sign = best.reversed ? -1 : 1;
  return {
    endXMm: best.endMm * ux,
    endYMm: axis.interceptMm + best.endMm * uy,
    along: [sign * ux, sign * uy],
    reversed: best.reversed,
    contrast: best.contrast,
  };
}

interface Candidate {
  readonly endMm: number;
  readonly reversed: boolean;
  readonly score: number;
  readonly contrast: number;
}

function placesFor(
  profile: Profile,
  run: Run,
  unlike: Float64Array,
  scale: StripScale,
  reversed: boolean,
): Candidate[] {
  const startMm = profile.fromMm + run.from * profile.stepMm;
  const stopMm = profile.fromMm + (run.to + 1) * profile.stepMm;
  const [nearMm, farMm] = reversed ? [stopMm, startMm] : [startMm, stopMm];
  const sign = reversed ? -1 : 1;
  // An end that lies beyond the slot is white on white: then the other end and the length tell.
  const expected = insideSlot(nearMm) ? nearMm : farMm - sign * scale.strip.lengthMm;
  const candidates: Candidate[] = [];
  for (let off = -END_SLACK_MM; off <= END_SLACK_MM; off += 0.1) {
    const endMm = expected + off;
    const contrast = padContrast(profile, unlike, scale, endMm, reversed);
    candidates.push({ endMm, reversed, contrast, score: contrast - OFF_END_COST * off * off });
  }
  return candidates;
}

function insideSlot(alongMm: number): boolean {
  return alongMm > SLOT.xMm + 1.5 && alongMm < SLOT.xMm + SLOT.widthMm - 1.5;
}

/** Mean unlikeness of pads less that of the gaps and the plastic beside them. */
function padContrast(
  profile: Profile,
  unlike: Float64Array,
  scale: StripScale,
  endMm: number,
  reversed: boolean,
): number {
  const sign = reversed ? -1 : 1;
  let [inside, insideCount, outside, outsideCount] = [0, 0, 0, 0];
  const first = scale.pads[0]!;
  const last = scale.pads.at(-1)!;
  const from = Math.max(0.3, first.centreMm - first.widthMm / 2 - 3);
  const to = Math.min(scale.strip.lengthMm - 0.3, last.centreMm + last.widthMm / 2 + 15);
  for (let t = from; t < to; t += profile.stepMm) {
    const i = Math.round((endMm + sign * t - profile.fromMm) / profile.stepMm);
    const value = unlike[i] ?? 0.3;
    const onPad = scale.pads.some((pad) => Math.abs(t - pad.centreMm) < pad.widthMm / 2);
    if (onPad) {
      inside += value;
      insideCount++;
    } else {
      outside += value;
      outsideCount++;
    }
  }
  return inside / Math.max(1, insideCount) - outside / Math.max(1, outsideCount);
}
