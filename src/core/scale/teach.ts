/** From photos of a chart beside the card to a strip scale. */
import { CARD_VERSION } from '../card/geometry.ts';
import { fitNeutrals, type GreyPrint } from '../colour/neutrals.ts';
import { linearToLab, type Triple } from '../colour/lab.ts';
import type { PadQuantity } from '../measurement/quantities.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import type { StripScale, Teaching } from './schema.ts';

/** One photo of the chart. */
export interface TaughtPhoto {
  /** The owner's word for the light. */
  readonly light: string;
  readonly card: CardSamples;
  /** Per pad, per block; xMm and yMm on the card's plane, possibly outside the card. */
  readonly blocks: readonly (readonly PatchSample[])[];
}

export interface TeachRequest {
  readonly name: string;
  readonly dipSeconds: number;
  readonly readAfterSeconds: number;
  readonly readBeforeSeconds: number;
  readonly strip: { readonly lengthMm: number; readonly widthMm: number };
  readonly pads: readonly {
    readonly parameter: PadQuantity;
    readonly unit: 'mg/L' | 'pH';
    readonly centreMm: number;
    readonly widthMm: number;
    readonly heightMm: number;
    /** In the order of the blocks. */
    readonly values: readonly number[];
  }[];
}

/**
 * The scale's own blocks are the mean over the photos; each photo is kept as a teaching with its card's colours.
 * Check the result with `parseScale`: values may repeat, pads may overlap.
 *
 * @param photos at least one; all of the same printed card
 * @throws RangeError when most greys of a card are clipped
 */
export function teachScale(request: TeachRequest, photos: readonly TaughtPhoto[], id: string): StripScale {
  const print = fitNeutrals(photos[0]!.card).print;
  const teachings = photos.map((photo) => teachingOf(photo, print));
  const mean = (pad: number, block: number): Triple =>
    [0, 1, 2].map((c) => average(teachings.map(({ blocks }) => blocks[pad]![block]![c]!))) as unknown as Triple;
  const orders = request.pads.map(({ values }) =>
    values.map((_, i) => i).sort((one, two) => values[one]! - values[two]!),
  );
  return {
    format: 'dipwise-scale',
    version: 1,
    id,
    name: request.name,
    origin: 'taught',
    white: 'D65',
    strip: request.strip,
    pads: request.pads.map(({ values, ...pad }, k) => ({
      ...pad,
      blocks: orders[k]!.map((i) => ({ value: values[i]!, lab: [...mean(k, i)] as [number, number, number] })),
    })),
    dipSeconds: request.dipSeconds,
    readAfterSeconds: request.readAfterSeconds,
    readBeforeSeconds: request.readBeforeSeconds,
    teachings: teachings.map((teaching) => ({
      ...teaching,
      blocks: teaching.blocks.map((row, k) => orders[k]!.map((i) => row[i]!)),
    })),
  };
}

/** What one photo adds, measured on the grey print that the scale rests on. */
export function teachingOf({ light, card, blocks }: TaughtPhoto, print: GreyPrint): Teaching {
  const correction = fitNeutrals(card, print);
  const linear = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  const byId = (samples: readonly PatchSample[]) =>
    Object.fromEntries(samples.map((sample) => [sample.id, rounded(linear(sample), 5)]));
  return {
    cardVersion: card.version ?? (card.printMark === null ? 1 : CARD_VERSION),
    ...(card.printMark !== null && { printMark: card.printMark }),
    light,
    print: { ...correction.print, tint: [correction.print.tint[0], correction.print.tint[1]] },
    neutrals: byId(card.neutrals),
    anchors: byId(card.anchors),
    blocks: blocks.map((row) => row.map((sample) => rounded(linearToLab(linear(sample)), 2))),
  };
}

function rounded(triple: Triple, digits: number): [number, number, number] {
  return triple.map((value) => Number(value.toFixed(digits))) as [number, number, number];
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
