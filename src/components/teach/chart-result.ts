/** From marked rows to what they teach. */
import { linearToLab, type Triple } from '../../core/colour/lab.ts';
import { fitNeutrals } from '../../core/colour/neutrals.ts';
import type { CardSamples, PatchSample } from '../../core/samples.ts';
import { carryRows } from '../../core/scale/carry-light.ts';
import type { BlockFound } from '../../vision/messages.ts';
import { inOrder, resultOf, type Row, type RowResult } from './rows.ts';

/** Rows ready for a scale, their samples under one light. */
export interface ChartResult {
  readonly card: CardSamples;
  readonly rows: readonly ChartResultRow[];
}

export interface ChartResultRow extends RowResult {
  /** Values rising. */
  readonly samples: readonly PatchSample[];
  /** The same, corrected by the card's greys. */
  readonly labs: readonly Triple[];
}

/** @param rows without problems */
export function chartResult(card: CardSamples, rows: readonly Row[]): ChartResult {
  const blocks = rows.map(({ marks }) => marks.map(({ block }) => block));
  const carried = carryRows(blocks);
  const labs = labsOf(card, blocks);
  return {
    card,
    rows: rows.map((row, i) => {
      const result = resultOf(row);
      return { ...result, samples: inOrder(carried[i]!, result), labs: inOrder(labs[i]!, result) };
    }),
  };
}

/** Colours of blocks as the card's greys correct them. */
export function labsOf(card: CardSamples, rows: readonly (readonly BlockFound[])[]): Triple[][] {
  const correction = fitNeutrals(card);
  return carryRows(rows).map((row) => row.map(({ rgb, xMm, yMm }) => linearToLab(correction.toLinear(rgb, xMm, yMm))));
}
