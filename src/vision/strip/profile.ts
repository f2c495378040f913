/** The strip's colours along its axis. */
import { CARD_WIDTH_MM, SLOT } from '../../core/card/geometry.ts';
import type { Pixels } from '../pixels.ts';
import type { Axis } from './axis.ts';
import { type Background, boxMean } from './grid.ts';

export interface Profile {
  readonly stepMm: number;
  /** Distance along the axis of the first sample, mm from the card's left edge, measured along the axis. */
  readonly fromMm: number;
  readonly rgb: readonly (readonly [number, number, number])[];
  /** Whether the sample is strip rather than bare slot. */
  readonly strip: readonly boolean[];
}

/** From the first to the last sample of the strip, both included. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

const STEP_MM = 0.2;
const SMOOTH_MM = 2;
/** Where across the strip it is looked at, in widths from its middle. */
const ACROSS = [-0.25, -0.1, 0.1, 0.25];

export function profileAlong(flat: Pixels, axis: Axis, background: Background, widthMm: number): Profile {
  const length = Math.hypot(1, axis.slope);
  const [ux, uy] = [1 / length, axis.slope / length];
  const toMm = (CARD_WIDTH_MM - 8) * length;
  const fromMm = 8 * length;
  const rgb: [number, number, number][] = [];
  const strip: boolean[] = [];
  const across = new Float64Array(3 * ACROSS.length);
  for (let s = fromMm; s < toMm; s += STEP_MM) {
    const [x, y] = [s * ux, axis.interceptMm + s * uy];
    ACROSS.forEach((t, i) => boxMean(flat, x - t * widthMm * uy, y + t * widthMm * ux, 0.5, across, 3 * i));
    const meanOf = (c: number) => (across[c]! + across[c + 3]! + across[c + 6]! + across[c + 9]!) / ACROSS.length;
    const mean: [number, number, number] = [meanOf(0), meanOf(1), meanOf(2)];
    rgb.push(mean);
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
export function stripRun(profile: Profile): Run | null {
  const bridge = 8 / profile.stepMm;
  let best: Run | null = null;
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
export function unlikeBase(profile: Profile, run: Run): Float64Array {
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
