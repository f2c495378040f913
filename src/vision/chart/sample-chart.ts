/** A whole chart in one go, where it is known where its blocks are: what a photo teaches. */
import type { Point } from '../../core/card/homography.ts';
import type { RefusalCode } from '../../core/reading/reading.ts';
import type { CardSamples, PatchSample } from '../../core/samples.ts';
import { carryRows } from '../../core/scale/carry-light.ts';
import type { Pixels } from '../pixels.ts';
import { blocksAt, openChart } from './open-chart.ts';

export type ChartSampling =
  | { readonly card: CardSamples; readonly blocks: PatchSample[][]; readonly reason: null }
  | { readonly card: null; readonly blocks: null; readonly reason: RefusalCode }
  /** A place that isn't beside the card: the row and the block, counted from 0. */
  | {
      readonly card: null;
      readonly blocks: null;
      readonly reason: 'off-photo' | 'on-card';
      readonly at: [number, number];
    };

/** @param places of the blocks' middles in the photo, px, pad by pad */
export function sampleChart(photo: Pixels, places: readonly (readonly Point[])[]): ChartSampling {
  const { chart, reason } = openChart(photo, false);
  if (!chart) return { card: null, blocks: null, reason };
  const rows = [];
  for (const [i, row] of places.entries()) {
    const found = [];
    for (const [k, { block, reason: missing }] of blocksAt(chart, row).entries()) {
      if (!block) return { card: null, blocks: null, reason: missing, at: [i, k] };
      found.push(block);
    }
    rows.push(found);
  }
  return { card: chart.found.samples, blocks: carryRows(rows), reason: null };
}
