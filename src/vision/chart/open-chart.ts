/** A photo of a colour chart beside the card, held open while its blocks are being marked. */
import type { Point } from '../../core/card/homography.ts';
import type { RefusalCode } from '../../core/reading/reading.ts';
import type { CardSamples } from '../../core/samples.ts';
import { openCard } from '../open-card.ts';
import type { Pixels } from '../pixels.ts';
import { anythingInSlot } from '../strip/propose-strip.ts';
import { type Plane, planeOf } from './plane.ts';
import { proposeRows } from './propose.ts';
import { type BlockFound, type BlockSearch, sampleBlock } from './sample-block.ts';

export interface ChartFound {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly samples: CardSamples;
  /** The card's corners in the photo, px. */
  readonly corners: readonly Point[];
  /** About the middle of the card. */
  readonly pxPerMm: number;
  /** Rows of blocks that could be found, for the visitor to accept. */
  readonly rows: readonly (readonly BlockFound[])[];
}

export interface OpenChart {
  readonly photo: Pixels;
  readonly plane: Plane;
  readonly found: ChartFound;
}

export type ChartOpening =
  { readonly chart: OpenChart; readonly reason: null } | { readonly chart: null; readonly reason: RefusalCode };

/** @param propose whether rows of blocks are to be looked for */
export function openChart(photo: Pixels, propose: boolean): ChartOpening {
  const { opened, refused } = openCard(photo, { inSlot: anythingInSlot });
  if (!opened) return { chart: null, reason: refused.reason };
  const plane = planeOf(opened.card);
  const found: ChartFound = {
    widthPx: photo.width,
    heightPx: photo.height,
    samples: opened.samples,
    corners: opened.card.corners,
    pxPerMm: opened.card.pxPerMm,
    rows: propose ? proposeRows(photo, plane) : [],
  };
  return { chart: { photo, plane, found }, reason: null };
}

/** Blocks at places in the photo, px, in their order. */
export function blocksAt({ photo, plane }: OpenChart, places: readonly Point[]): BlockSearch[] {
  return places.map((place) => sampleBlock(photo, plane, place, ''));
}

/** Places spread evenly from the middle of a row's first block to that of its last, as on the card's plane. */
export function placesAlong({ plane }: OpenChart, from: Point, to: Point, count: number): Point[] {
  const [start, end] = [plane.toCard(from), plane.toCard(to)];
  return Array.from({ length: count }, (_, i): Point => {
    const share = count > 1 ? i / (count - 1) : 0;
    return plane.toPhoto([start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])]);
  });
}
