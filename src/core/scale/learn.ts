/**
 * What a reading corrected by hand teaches: how far the pad's real colour at a known value lies from the chart's ink.
 *
 * A pad's mismatch is taken for a smooth change of Lab along its blocks: a Gaussian process, one part of it the same for
 * the whole pad and one that is forgotten within a block or two (C. E. Rasmussen, C. K. I. Williams, Gaussian Processes
 * for Machine Learning, 2006, chapter 2). What one photo shows is doubtful by what the reading itself doubted, and by how
 * well the kit knows the value; so one test moves the curve a little and three agreeing ones most of the way.
 */
import type { Triple } from '../colour/lab.ts';
import { solveSymmetric } from '../math/least-squares.ts';
import { curveThrough } from './curve.ts';
import type { Block, Learnt, ScalePad, StripScale } from './schema.ts';

/** Standard deviation of the mismatch between press ink and wet pad, CIELAB; set on the studio's inks and pads. */
const SIGMA = 1.5;
/** How much of it is the same all along the pad. */
const SHARED = 0.3;
/** Within how many blocks the rest is forgotten. */
const LENGTH = 1.2;
/** Correlation between what two lights show of it. */
const OTHER_LIGHT = 0.8;

/** A pad of a reading, and what another test said of the same water. */
export interface KnownValue {
  readonly parameter: ScalePad['parameter'];
  readonly value: number;
  /** How well the other test knows it, one standard deviation, in the pad's unit. */
  readonly doubt: number;
  /** The pad's colour as the teaching photo would have seen it. */
  readonly lab: readonly [number, number, number];
  /** Which teaching photo that is; null where the greys alone led. */
  readonly teaching: number | null;
  /** Standard deviation of that colour, CIEDE2000. */
  readonly sigma: number;
}

/** @returns null where the value lies beyond the chart, so that no ink stands for it */
export function learntFrom(scale: StripScale, known: KnownValue, at: string): Learnt | null {
  const index = scale.pads.findIndex(({ parameter }) => parameter === known.parameter);
  const pad = scale.pads[index];
  if (!pad || known.value < pad.blocks[0]!.value || known.value > pad.blocks.at(-1)!.value) return null;
  const curve = curveThrough({ ...pad, blocks: blocksIn(scale, index, known.teaching) });
  const position = curve.positionOf(known.value);
  const expected = curve.labAt(position);
  const span = [known.value - known.doubt, known.value + known.doubt].map((value) => curve.positionOf(value));
  const { parameter, value, teaching } = known;
  return {
    parameter,
    value,
    off: known.lab.map((part, c) => Number((part - expected[c]!).toFixed(2))) as [number, number, number],
    sigma: Number(Math.hypot(known.sigma, (span[1]! - span[0]!) / 2).toFixed(2)),
    teaching,
    at,
  };
}

/** Further off than this, CIELAB, something else is wrong: the other test, a stain, another strip. */
const MAX_OFF = 14;
const MAX_LEARNT = 200;

export type Lesson =
  | { readonly scale: StripScale; readonly reason: null }
  | { readonly scale: null; readonly reason: 'beyond-chart' | 'too-far' };

/** The scale with one more known value; a second one for the same pad of the same photo takes the place of the first. */
export function withKnown(scale: StripScale, known: KnownValue, at: string): Lesson {
  const one = learntFrom(scale, known, at);
  if (!one) return { scale: null, reason: 'beyond-chart' };
  if (Math.hypot(...one.off) > MAX_OFF) return { scale: null, reason: 'too-far' };
  const others = (scale.learnt ?? []).filter(({ parameter, at: when }) => parameter !== one.parameter || when !== at);
  return { scale: { ...scale, learnt: [...others, one].slice(-MAX_LEARNT) }, reason: null };
}

/** The scale without one of the things that it has learnt. */
export function withoutLearnt(scale: StripScale, { parameter, at }: Pick<Learnt, 'parameter' | 'at'>): StripScale {
  return { ...scale, learnt: (scale.learnt ?? []).filter((one) => one.parameter !== parameter || one.at !== at) };
}

/** The pad's blocks as one teaching photo showed them, or as the scale has them. */
export function blocksIn(scale: StripScale, pad: number, teaching: number | null): Block[] {
  const seen = teaching === null ? null : scale.teachings[teaching]?.blocks[pad];
  return scale.pads[pad]!.blocks.map(({ value, lab }, i) => ({ value, lab: seen?.[i] ?? lab }));
}

/**
 * The blocks with the colours that the pad really takes there, as far as that has been learnt.
 * @param blocks the pad's, as the teaching photo showed them
 */
export function withLearnt(
  { learnt = [] }: Pick<StripScale, 'learnt'>,
  parameter: ScalePad['parameter'],
  blocks: readonly Block[],
  teaching: number | null,
): Block[] {
  const shifts = shiftsOf(
    learnt.filter((one) => one.parameter === parameter),
    blocks,
    teaching,
  );
  return blocks.map(({ value, lab }, i) => ({
    value,
    lab: lab.map((part, c) => part + shifts[i]![c]!) as [number, number, number],
  }));
}

/** Of each block, CIELAB. */
export function shiftsOf(learnt: readonly Learnt[], blocks: readonly Block[], teaching: number | null): Triple[] {
  if (learnt.length === 0) return blocks.map(() => [0, 0, 0]);
  const { normal, reachOf } = toldBy(learnt, blocks, teaching);
  const weights = [0, 1, 2].map((c) =>
    solveSymmetric(
      normal,
      learnt.map(({ off }) => off[c]!),
    ),
  );
  return blocks.map((_, block) => weights.map((weight) => dot(reachOf(block), weight)) as unknown as Triple);
}

/** Of each block, how much of the mismatch's standard deviation is still unknown: 1 where nothing was learnt. */
export function doubtLeft(
  { learnt = [] }: Pick<StripScale, 'learnt'>,
  parameter: ScalePad['parameter'],
  blocks: readonly Block[],
  teaching: number | null,
): number[] {
  const own = learnt.filter((one) => one.parameter === parameter);
  if (own.length === 0) return blocks.map(() => 1);
  const { normal, reachOf } = toldBy(own, blocks, teaching);
  return blocks.map((_, block) => {
    const reach = reachOf(block);
    return Math.sqrt(Math.max(0, 1 - dot(reach, solveSymmetric(normal, reach)) / SIGMA ** 2));
  });
}

/** Covariances of the Gaussian process: of what was seen, and of a block with each of it. */
function toldBy(learnt: readonly Learnt[], blocks: readonly Block[], teaching: number | null) {
  const values = blocks.map(({ value }) => value);
  const places = learnt.map(({ value }) => placeAmong(values, value));
  const sameLight = (one: number | null, other: number | null) => (one === other ? 1 : OTHER_LIGHT);
  const along = (one: number, other: number) =>
    SIGMA ** 2 * (SHARED + (1 - SHARED) * Math.exp(-0.5 * ((one - other) / LENGTH) ** 2));
  const normal = learnt.map((one, i) =>
    learnt.map(
      (other, j) =>
        along(places[i]!, places[j]!) * sameLight(one.teaching, other.teaching) + (i === j ? one.sigma ** 2 : 0),
    ),
  );
  const reachOf = (block: number) =>
    learnt.map((one, i) => along(block, places[i]!) * sameLight(teaching, one.teaching));
  return { normal, reachOf };
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, i) => sum + value * other[i]!, 0);
}

/** 1.5 is half way between the second and the third value. */
function placeAmong(values: readonly number[], value: number): number {
  const next = values.findIndex((one) => one >= value);
  if (next <= 0) return next < 0 ? values.length - 1 : 0;
  return next - 1 + (value - values[next - 1]!) / (values[next]! - values[next - 1]!);
}
