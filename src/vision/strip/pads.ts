/** Where along the strip its pads lie, and which end they are at. */
import { CARD_WIDTH_MM, SLOT } from '../../core/card/geometry.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { Pixels } from '../pixels.ts';
import type { Axis } from './axis.ts';
import { type Background, boxMean } from './grid.ts';

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

interface Profile {
  readonly stepMm: number;
  /** Distance along the axis of the first sample, mm from the card's left edge, measured along the axis. */
  readonly fromMm: number;
  readonly rgb: readonly (readonly [number, number, number])[];
  /** Whether the sample is strip rather than bare slot. */
  readonly strip: readonly boolean[];
}

const STEP_MM = 0.2;
const SMOOTH_MM = 2;
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

function profileAlong(flat: Pixels, axis: Axis, background: Background, widthMm: number): Profile {
  const length = Math.hypot(1, axis.slope);
  const [ux, uy] = [1 / length, axis.slope / length];
  const toMm = (CARD_WIDTH_MM - 8) * length;
  const fromMm = 8 * length;
  const rgb: [number, number, number][] = [];
  const strip: boolean[] = [];
  for (let s = fromMm; s < toMm; s += STEP_MM) {
    const [x, y] = [s * ux, axis.interceptMm + s * uy];
    const across = [-0.25, -0.1, 0.1, 0.25].map((t) => boxMean(flat, x - t * widthMm * uy, y + t * widthMm * ux, 0.5));
    const mean = [0, 1, 2].map((c) => across.reduce((sum, value) => sum + value[c]!, 0) / across.length);
    rgb.push(mean as [number, number, number]);
    strip.push(x > SLOT.xMm && x < SLOT.xMm + SLOT.widthMm && !alike(mean, background(x, y), 0.07));
  }
  return { stepMm: STEP_MM, fromMm, rgb, strip: majority(strip, SMOOTH_MM / STEP_MM / 2) };
}

/** Each flag replaced by what most of its neighbours say: noise makes single specks of slot look like strip. */
function majority(flags: readonly boolean[], reach: number): boolean[] {
  return flags.map((_, i) => {
    const near = flags.slice(Math.max(0, i - reach), i + reach + 1);
    return near.filter(Boolean).length > near.length / 2;
  });
}

function alike(one: readonly number[], two: readonly number[], share: number): boolean {
  return one.every((value, c) => Math.abs(value - two[c]!) <= share * two[c]! + 2);
}

/** The longest stretch of strip; pads that happen to match the slot's grey are bridged. */
function stripRun(profile: Profile): { from: number; to: number } | null {
  const bridge = 8 / profile.stepMm;
  let best: { from: number; to: number } | null = null;
  let from = -1;
  let last = -1;
  profile.strip.forEach((inside, i) => {
    if (!inside) return;
    if (from < 0 || i - last > bridge) from = i;
    last = i;
    if (!best || last - from > best.to - best.from) best = { from, to: last };
  });
  return best;
}

/** For each sample, how unlike the strip's plastic it is: 0 for the plastic, capped so that one dark pad can't outvote the rest. */
function unlikeBase(profile: Profile, run: { from: number; to: number }): Float64Array {
  const inside = profile.rgb.slice(run.from, run.to + 1);
  const bright = inside
    .map((rgb) => ({ rgb, light: rgb[0] + rgb[1] + rgb[2] }))
    .sort((one, two) => two.light - one.light)
    .slice(0, Math.max(5, Math.floor(inside.length * 0.5)));
  const base = [0, 1, 2].map((c) => {
    const channel = bright.map(({ rgb }) => rgb[c]!).sort((one, two) => one - two);
    return channel[channel.length >> 1]!;
  });
  return Float64Array.from(profile.rgb, (rgb) =>
    Math.min(0.3, Math.max(...rgb.map((value, c) => Math.abs(value / Math.max(1, base[c]!) - 1)))),
  );
}

interface Candidate {
  readonly endMm: number;
  readonly reversed: boolean;
  readonly score: number;
  readonly contrast: number;
}

function placesFor(
  profile: Profile,
  run: { from: number; to: number },
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
