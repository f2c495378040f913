/** What in a photo of a chart makes its colours doubtful, from the samples alone. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../card/geometry.ts';
import { linearToLab } from '../colour/lab.ts';
import type { NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import { beyond, type BlockOnLabel, MAX_BEYOND_MM } from './carry-light.ts';
import { median } from '../math/average.ts';

export type ChartConcern =
  /** The card's light can't be followed as far as the chart lies. */
  | { readonly code: 'far'; readonly mm: number }
  /** The label beside the blocks doesn't look like paper in the card's light. */
  | { readonly code: 'other-light'; readonly kind: 'darker' | 'brighter' | 'tinted' }
  /** Light or the label's curve changes over the chart; `steps` in L*. */
  | { readonly code: 'uneven'; readonly steps: number }
  /** Blocks, counted over all rows, that mirror light or are overexposed. */
  | { readonly code: 'glare'; readonly blocks: readonly number[] };

/** The nearest and the farthest block from the card's edge, mm. */
const NEAREST_MM = 50;
const FARTHEST_MM = 160;
/* A white label under the card's light, over the simulated charts: L* 90 to 96, chroma within 4 of the paper's. */
const DARKEST = 82;
const BRIGHTEST = 99.5;
const MAX_TINT = 4.5;
const TINTED_LIGHTNESS = 70;
const MAX_UNEVEN = 8;
const MAX_CLIPPED = 0.05;
const MAX_REJECTED = 0.3;

/** @param blocks of all rows, one after the other */
export function judgeChart(
  card: CardSamples,
  correction: NeutralCorrection,
  blocks: readonly BlockOnLabel[],
): ChartConcern[] {
  const concerns: ChartConcern[] = [];
  const distances = blocks.map(({ sample }) => beyond(sample));
  if (Math.min(...distances) > NEAREST_MM || Math.max(...distances) > FARTHEST_MM) {
    concerns.push({ code: 'far', mm: Math.min(...distances) });
  }
  const glaring = blocks.flatMap(({ sample }, i) =>
    sample.clipped > MAX_CLIPPED || sample.rejected > MAX_REJECTED ? [i] : [],
  );
  if (glaring.length > 0) concerns.push({ code: 'glare', blocks: glaring });
  return [...concerns, ...judgeLabel(card, correction, blocks)];
}

function judgeLabel(card: CardSamples, correction: NeutralCorrection, blocks: readonly BlockOnLabel[]): ChartConcern[] {
  const labAt = ({ rgb, xMm, yMm }: PatchSample) =>
    linearToLab(correction.toLinear(rgb, hold(xMm, CARD_WIDTH_MM), hold(yMm, CARD_HEIGHT_MM)));
  const labels = blocks.flatMap(({ label }) => (label ? [labAt(label)] : []));
  const paper = card.paper.map(labAt);
  if (labels.length < 4 || paper.length === 0) return [];
  const concerns: ChartConcern[] = [];
  const lightness = labels.map(([l]) => l).sort((one, other) => one - other);
  const steps = lightness[Math.floor(0.9 * (lightness.length - 1))]! - lightness[Math.floor(0.1 * lightness.length)]!;
  if (steps > MAX_UNEVEN) concerns.push({ code: 'uneven', steps });
  const l = median(lightness);
  const tint = Math.hypot(difference(labels, paper, 1), difference(labels, paper, 2));
  if (tint > MAX_TINT && l > TINTED_LIGHTNESS) concerns.push({ code: 'other-light', kind: 'tinted' });
  else if (tint <= MAX_TINT && l < DARKEST) concerns.push({ code: 'other-light', kind: 'darker' });
  else if (l > BRIGHTEST) concerns.push({ code: 'other-light', kind: 'brighter' });
  return concerns;
}

function hold(mm: number, size: number): number {
  return Math.min(size + MAX_BEYOND_MM, Math.max(-MAX_BEYOND_MM, mm));
}

type Lab = readonly [number, number, number];

function difference(some: readonly Lab[], others: readonly Lab[], axis: 1 | 2): number {
  return median(some.map((lab) => lab[axis])) - median(others.map((lab) => lab[axis]));
}
