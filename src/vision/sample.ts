/** What the flattened card itself shows: the colours of everything printed on it. */
import { ANCHORS, NEUTRALS, PAPER_PATCHES, type Rect, SLOT } from '../core/card/geometry.ts';
import type { CardSamples, PatchSample } from '../core/samples.ts';
import type { CardCodes } from './card-codes.ts';
import { type Outline, outlineOf, samplePatch } from './patch.ts';
import type { Pixels } from './pixels.ts';

/** Left out along the sides of patches: blur, and what the flattening may be off by. */
const PATCH_INSET_MM = 2;
const PAPER_INSET_MM = 0.2;
/** Left out along the slot's printed outline. */
const SLOT_INSET_MM = 1.2;

/** The slot is sampled in this many places. */
const SLOT_COLUMNS = 8;
const SLOT_ROWS = 4;
/** A place of the slot counts when at least this share of it is bare. */
const MIN_BARE = 0.3;

/**
 * @param flat a card of one of the readable versions
 * @param strip where the strip lies with its shadow; null when there is none
 */
export function sampleCard(flat: Pixels, codes: CardCodes, strip: Outline | null): CardSamples {
  const sample = (rects: readonly Rect[], insetMm: number): PatchSample[] =>
    rects.flatMap((rect) => samplePatch(flat, { id: rect.id, outline: outlineOf(rect), insetMm }) ?? []);
  return {
    ...codes,
    neutrals: sample(NEUTRALS, PATCH_INSET_MM),
    anchors: codes.variant === 'black' ? [] : sample(ANCHORS, PATCH_INSET_MM),
    paper: sample(PAPER_PATCHES, PAPER_INSET_MM),
    slot: slotRects().flatMap((rect) => {
      const seen = samplePatch(flat, { id: rect.id, outline: outlineOf(rect), insetMm: 0 }, strip);
      const wholeCount = rect.widthMm * rect.heightMm * 100;
      return seen && seen.count >= MIN_BARE * wholeCount ? seen : [];
    }),
  };
}

function slotRects(): Rect[] {
  const widthMm = (SLOT.widthMm - 2 * SLOT_INSET_MM) / SLOT_COLUMNS;
  const heightMm = (SLOT.heightMm - 2 * SLOT_INSET_MM) / SLOT_ROWS;
  return Array.from({ length: SLOT_COLUMNS * SLOT_ROWS }, (_, i) => ({
    id: `slot${i + 1}`,
    xMm: SLOT.xMm + SLOT_INSET_MM + (i % SLOT_COLUMNS) * widthMm,
    yMm: SLOT.yMm + SLOT_INSET_MM + Math.floor(i / SLOT_COLUMNS) * heightMm,
    widthMm,
    heightMm,
  }));
}
