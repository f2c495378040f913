/** A strip that no scale describes yet: how long and wide it is, and where its pads are. */
import type { PatchSample } from '../../core/samples.ts';
import { type Outline, samplePatch } from '../patch.ts';
import type { Pixels } from '../pixels.ts';
import { type Axis, findAxis, stripMask } from './axis.ts';
import { fitBackground, type Grid, gridOverSlot } from './grid.ts';
import type { StripPose } from './pads.ts';
import { quadOnStrip, SHADOW_MM } from './places.ts';
import { sampleBase } from './sample-strip.ts';
import { type Profile, profileAlong, type Run, stripRun, unlikeBase } from './profile.ts';

export interface ProposedPad {
  /** From the pad end, along the strip. */
  readonly centreMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly sample: PatchSample;
}

export interface ProposedStrip {
  readonly lengthMm: number;
  readonly widthMm: number;
  /** The pad end on the card, mm, and the direction from there along the strip. */
  readonly endMm: readonly [number, number];
  readonly along: readonly [number, number];
  /** From the pad end. */
  readonly pads: readonly ProposedPad[];
  /** Bare plastic between and beyond the pads. */
  readonly base: readonly PatchSample[];
}

const MIN_WIDTH_MM = 3;
const MAX_WIDTH_MM = 12;
const MIN_PAD_MM = 3;
const MAX_PAD_MM = 9;
const MIN_GAP_MM = 0.6;
const MAX_PITCH_MM = 20;
/** Mean unlikeness to the plastic that pads have over the gaps; less, and nothing was found. */
const MIN_CONTRAST = 0.015;

/**
 * @param flat the card at FLAT_PX_PER_MM
 * @param padCount how many pads, evenly spaced, are looked for
 * @returns null when no strip lies in the slot, or no such pads stand out on it
 */
export function proposeStrip(flat: Pixels, padCount: number): ProposedStrip | null {
  const lying = findLying(flat);
  const comb = lying && bestComb(lying.profile, lying.run, padCount);
  return comb ? describe(flat, lying, comb) : null;
}

/** Where something like a strip lies in the slot, with a margin: kept clear when the bare slot is sampled. */
export function anythingInSlot(flat: Pixels, marginMm = SHADOW_MM): Outline | null {
  const lying = findLying(flat);
  if (!lying) return null;
  const lengthMm = lengthOf(lying);
  return quadOnStrip(poseOf(lying, false), -marginMm, lengthMm + marginMm, lying.widthMm + 2 * marginMm);
}

interface Lying {
  readonly axis: Axis;
  readonly profile: Profile;
  readonly run: Run;
  readonly widthMm: number;
}

function findLying(flat: Pixels): Lying | null {
  const grid = gridOverSlot(flat);
  const background = fitBackground(grid);
  const mask = stripMask(grid, background);
  const widthMm = widthOf(grid, mask);
  const axis = widthMm === null ? null : findAxis(grid, mask, widthMm);
  if (!axis || widthMm === null) return null;
  const profile = profileAlong(flat, axis, background, widthMm);
  const run = stripRun(profile);
  return run && { axis, profile, run, widthMm };
}

/** The usual height of what isn't slot, over the columns where it is of a strip's. */
function widthOf(grid: Grid, mask: Uint8Array): number | null {
  const heights: number[] = [];
  for (let column = 0; column < grid.columns; column++) {
    let longest = 0;
    let current = 0;
    for (let row = 0; row < grid.rows; row++) {
      current = mask[row * grid.columns + column] ? current + 1 : 0;
      longest = Math.max(longest, current);
    }
    const heightMm = longest * grid.stepMm;
    if (heightMm >= MIN_WIDTH_MM && heightMm <= MAX_WIDTH_MM) heights.push(heightMm);
  }
  if (heights.length * grid.stepMm < 25) return null;
  return heights.sort((one, other) => one - other)[heights.length >> 1]!;
}

/** A comb: evenly spaced pads along the profile, in samples from its start. */
interface Comb {
  readonly first: number;
  readonly pitch: number;
  readonly width: number;
  readonly count: number;
}

/**
 * The comb that parts the strip into pads and plastic most clearly: the largest variance between the two classes
 * (after N. Otsu, IEEE Trans. SMC 9:62, 1979).
 */
function bestComb(profile: Profile, run: Run, count: number): Comb | null {
  const unlike = unlikeBase(profile, run);
  const sums = [0];
  for (let i = run.from; i <= run.to; i++) sums.push(sums.at(-1)! + unlike[i]!);
  const length = sums.length - 1;
  const total = sums[length]!;
  const samples = (mm: number): number => Math.round(mm / profile.stepMm);
  let best: (Comb & { contrast: number }) | null = null;
  let most = 0;
  for (let width = samples(MIN_PAD_MM); width <= samples(MAX_PAD_MM); width++) {
    const pitches = count === 1 ? [width] : range(width + samples(MIN_GAP_MM), samples(MAX_PITCH_MM));
    for (const pitch of pitches) {
      const span = pitch * (count - 1) + width;
      for (let first = 0; first + span <= length; first++) {
        let inside = 0;
        for (let tooth = 0; tooth < count; tooth++) {
          const from = first + tooth * pitch;
          inside += sums[from + width]! - sums[from]!;
        }
        const share = (count * width) / length;
        const contrast = inside / (count * width) - (total - inside) / Math.max(1, length - count * width);
        const variance = contrast > 0 ? share * (1 - share) * contrast * contrast : 0;
        if (variance > most) {
          most = variance;
          best = { first: first + run.from, pitch, width, count, contrast };
        }
      }
    }
  }
  return best && best.contrast >= MIN_CONTRAST ? best : null;
}

function range(from: number, to: number): number[] {
  return Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);
}

function lengthOf({ profile, run }: Lying): number {
  return (run.to - run.from + 1) * profile.stepMm;
}

function poseOf({ axis, profile, run }: Lying, reversed: boolean): StripPose {
  const length = Math.hypot(1, axis.slope);
  const [ux, uy] = [1 / length, axis.slope / length];
  const endMm = profile.fromMm + (reversed ? run.to + 1 : run.from) * profile.stepMm;
  const sign = reversed ? -1 : 1;
  return {
    endXMm: endMm * ux,
    endYMm: axis.interceptMm + endMm * uy,
    along: [sign * ux, sign * uy],
    reversed,
    scale: 1,
    contrast: 0,
  };
}

function describe(flat: Pixels, lying: Lying, { first, pitch, width, count }: Comb): ProposedStrip {
  const { profile, run, widthMm } = lying;
  const lastEnd = first + pitch * (count - 1) + width;
  const reversed = run.to + 1 - lastEnd < first - run.from;
  const pose = poseOf(lying, reversed);
  const padWidthMm = width * profile.stepMm;
  const heightMm = Math.min(widthMm, padWidthMm);
  const pads = Array.from({ length: count }, (_, i) => {
    const from = reversed ? run.to + 1 - (lastEnd - pitch * i) : first + pitch * i - run.from;
    const centreMm = (from + width / 2) * profile.stepMm;
    const outline = quadOnStrip(pose, centreMm - padWidthMm / 2, centreMm + padWidthMm / 2, heightMm);
    const sample = samplePatch(flat, { id: `pad${i + 1}`, outline, insetMm: 0.25 * heightMm });
    return sample && { centreMm, widthMm: padWidthMm, heightMm, sample };
  }).filter((pad) => pad !== null);
  const { endXMm, endYMm, along } = pose;
  const lengthMm = lengthOf(lying);
  const base = sampleBase(flat, pose, { strip: { lengthMm, widthMm }, pads });
  return { lengthMm, widthMm, endMm: [endXMm, endYMm], along, pads, base };
}
