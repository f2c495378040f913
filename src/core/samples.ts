/**
 * What vision hands on to be judged: colours of places on the
 * flattened card, before any correction. All RGB here is as the photo encodes
 * it (sRGB-like, non-linear), 0 to 1.
 */
import type { SeenPrint } from './card/print-mark.ts';

export type Rgb = readonly [number, number, number];

/** The robust colour of one patch. */
export interface PatchSample {
  readonly id: string;
  /** Centre on the card, mm. */
  readonly xMm: number;
  readonly yMm: number;
  /** Robust mean, encoded RGB 0-1. */
  readonly rgb: Rgb;
  /** Robust standard deviation of a pixel, per channel, encoded 0-1. */
  readonly scatter: Rgb;
  /** Pixels of the flattened picture that were kept. */
  readonly count: number;
  /** Share of the patch's pixels with a channel at one of its ends. */
  readonly clipped: number;
  /** Share of pixels left out as glint, edge or speck. */
  readonly rejected: number;
}

export interface CardSamples extends SeenPrint {
  readonly variant: 'colour' | 'black';
  readonly neutrals: readonly PatchSample[];
  /** Empty on a black-only card. */
  readonly anchors: readonly PatchSample[];
  /** Bare paper between the patches; same field order as `neutrals`. */
  readonly paper: readonly PatchSample[];
  /** The slot's grey where no strip lies. */
  readonly slot: readonly PatchSample[];
}

export interface StripSamples {
  /** The strip's own white plastic between and beside the pads. */
  readonly base: readonly PatchSample[];
  /** One per pad of the scale, in the scale's order. */
  readonly pads: readonly PadSample[];
  /** True when the pads run right to left on the card. */
  readonly reversed: boolean;
}

export interface PadSample extends PatchSample {
  /** Share of the pad's pixels that a reflection on the wet film brightens. */
  readonly brightened: number;
  /** Bare plastic right beside the pad, before and after it: a reflection on the pad reaches it too. */
  readonly beside: readonly PatchSample[];
  /** The pad's four corners on the card, mm, clockwise. */
  readonly outline: readonly (readonly [number, number])[];
}
