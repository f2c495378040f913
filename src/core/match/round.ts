/** One strip to match by eye: a hidden value, the pad's colour, what a photo would have made of it. */
import type { Triple } from '../colour/lab.ts';
import { placeOnCurve, type Placement } from '../reading/place.ts';
import { curveThrough } from '../scale/curve.ts';
import type { ScalePad } from '../scale/schema.ts';

/** Standard deviation of a photo's colour of a pad, CIEDE2000: as sheets of the practice photos have it, rounded up. */
export const PHOTO_SIGMA = 2;

export interface Round {
  /** Place of the hidden value among the blocks: 1.5 is half way between the second and the third. */
  readonly block: number;
  readonly value: number;
  /** Lab D65 of the pad. */
  readonly lab: Triple;
  readonly photo: Placement;
}

/** @param random uniform numbers from 0 to 1, as `Math.random` */
export function newRound(pad: ScalePad, random: () => number): Round {
  const curve = curveThrough(pad);
  const block = random() * (pad.blocks.length - 1);
  const position = curve.positionAtBlock(block);
  const lab = curve.labAt(position);
  const seen = lab.map((x) => x + (PHOTO_SIGMA / Math.sqrt(3)) * normal(random)) as unknown as Triple;
  return { block, value: curve.valueAt(position), lab, photo: placeOnCurve(seen, curve, PHOTO_SIGMA) };
}

/** What can be chosen: each block, and half way between two. In blocks, lowest first. */
export function choicesOf(pad: ScalePad): number[] {
  return Array.from({ length: 2 * pad.blocks.length - 1 }, (_, i) => i / 2);
}

/** The value that a choice stands for: a block's own, or half way between two. */
export function valueOfChoice(pad: ScalePad, block: number): number {
  const lower = pad.blocks[Math.floor(block)]!.value;
  return (lower + pad.blocks[Math.ceil(block)]!.value) / 2;
}

/** Box and Muller. */
function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
