/** Where things are on a printed colour chart, mm from its middle: u to the right along its rows, v down. */
import type { PadQuantity } from '../../../src/core/measurement/quantities.ts';
import { quantityTitle } from '../../../src/words/quantities.ts';
import type { LaidChart } from '../scene/types.ts';
import type { Lettering } from '../scene/type.ts';
import { stripCalled, type StudioPad } from '../strips/strips.ts';

export interface ChartBlock {
  readonly value: number;
  readonly uMm: number;
  readonly vMm: number;
}

export interface ChartRow {
  readonly pad: StudioPad;
  readonly blocks: readonly ChartBlock[];
}

export interface ChartLayout {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly rows: readonly ChartRow[];
  readonly texts: readonly Lettering[];
}

const MARGIN_MM = 6;
const NAME_WIDTH_MM = 27;
/** Room below a row's blocks for their values. */
const VALUE_MM = 5.5;
const ROW_GAP_MM = 3.5;
const HEADING_MM = 8;

export function layoutOf(chart: LaidChart): ChartLayout {
  const strip = stripCalled(chart.id);
  const pads = chart.rows.map((parameter) => padOf(strip.pads, parameter));
  const { widthMm: blockWidth, heightMm: blockHeight, gapMm } = chart.block;
  const most = Math.max(...pads.map((pad) => pad.values.length));
  const widthMm = 2 * MARGIN_MM + NAME_WIDTH_MM + most * (blockWidth + gapMm) - gapMm;
  const rowPitch = blockHeight + VALUE_MM + ROW_GAP_MM;
  const heightMm = 2 * MARGIN_MM + HEADING_MM + pads.length * rowPitch - ROW_GAP_MM;
  const [left, top] = [-widthMm / 2 + MARGIN_MM, -heightMm / 2 + MARGIN_MM];
  const rows = pads.map((pad, row): ChartRow => ({
    pad,
    blocks: pad.values.map((value, i) => ({
      value,
      uMm: left + NAME_WIDTH_MM + i * (blockWidth + gapMm) + blockWidth / 2,
      vMm: top + HEADING_MM + row * rowPitch + blockHeight / 2,
    })),
  }));
  const heading = `Dip ${strip.dipSeconds} s, compare after ${strip.readAfterSeconds} s`;
  const texts = [
    lettering(heading, left, top + 4, 'start', 4.4),
    ...rows.flatMap(({ pad, blocks }) => [
      ...nameOf(pad, left, blocks[0]!.vMm),
      ...blocks.map(({ value, uMm, vMm }) => lettering(String(value), uMm, vMm + blockHeight / 2 + 3.8, 'middle', 3.6)),
    ]),
  ];
  return { widthMm, heightMm, rows, texts };
}

function padOf(pads: readonly StudioPad[], parameter: PadQuantity): StudioPad {
  const pad = pads.find((one) => one.parameter === parameter);
  if (!pad) throw new Error(`the strip has no pad for ${parameter}`);
  return pad;
}

/** A name of two words stands on two lines. */
function nameOf(pad: StudioPad, xMm: number, vMm: number): Lettering[] {
  const words = quantityTitle(pad.parameter).split(' ');
  const from = vMm + 1.2 - (words.length - 1) * 2.1;
  return words.map((word, i) => lettering(word, xMm, from + 4.2 * i, 'start', 3.9));
}

function lettering(text: string, xMm: number, yMm: number, anchor: Lettering['anchor'], sizeMm: number): Lettering {
  return { text, xMm, yMm, anchor, sizeMm, weight: 'semibold', turnDegrees: 0 };
}
