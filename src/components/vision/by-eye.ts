/** A scale as several kinds of eyes see it: the rows of the drawing and of the table. */
import { labToSrgb } from '../../core/colour/lab.ts';
import { asSeenWith, DEFICIENCIES } from '../../core/colour/vision.ts';
import { neighboursByEye, type EyeVerdict, type Eyes, type Neighbours } from '../../core/scale/by-eye.ts';
import type { ScalePad } from '../../core/scale/schema.ts';
import { formatValue } from '../../words/numbers.ts';
import { svg, type SvgNode } from '../svg.ts';
import { capitalised } from '../../words/grammar.ts';

/** Strengths shown, of 0 to 1, in words. */
export const STRENGTHS = [
  { strength: 0.4, word: 'mild' },
  { strength: 0.7, word: 'strong' },
  { strength: 1, word: 'full' },
] as const;

export interface EyeColumn {
  readonly name: string;
  readonly eyes: Eyes | null;
}

export function eyeColumns(strength: number): EyeColumn[] {
  return [
    { name: 'Full', eyes: null },
    ...DEFICIENCIES.map((deficiency) => ({
      name: capitalised(deficiency),
      eyes: { deficiency, strength },
    })),
  ];
}

/** Said beside the number; nothing where two blocks can be told apart. */
export const VERDICT_WORDS: Readonly<Record<EyeVerdict, string>> = { same: 'alike', close: 'close', apart: '' };

export interface EyeRow {
  readonly between: string;
  readonly gaps: readonly Neighbours[];
}

/** One row for each pair of neighbouring blocks, one gap for each column. */
export function eyeRows(pad: ScalePad, strength: number): EyeRow[] {
  const columns = eyeColumns(strength).map(({ eyes }) => neighboursByEye(pad, eyes));
  return columns[0]!.map(({ from, to }, i) => ({
    between: `${formatValue(from)}, ${formatValue(to)}`,
    gaps: columns.map((gaps) => gaps[i]!),
  }));
}

/** The pad's blocks in a row for each kind of eyes. The table says the same in numbers, so it has no text of its own. */
export function drawByEye(pad: ScalePad, strength: number): SvgNode {
  const columns = eyeColumns(strength);
  const width = (400 - LEFT) / pad.blocks.length;
  const rows = columns.flatMap(({ name, eyes }, row) => [
    svg('text', { x: LEFT - 8, y: ROW * row + 17, 'text-anchor': 'end' }, name),
    ...pad.blocks.map(({ lab }, i) =>
      svg('rect', {
        x: (LEFT + width * i).toFixed(1),
        y: ROW * row,
        width: (width + 0.3).toFixed(1),
        height: ROW - 4,
        fill: hex(labToSrgb(eyes ? asSeenWith(eyes.deficiency, eyes.strength, lab) : lab)),
      }),
    ),
  ]);
  const values = pad.blocks.map(({ value }, i) =>
    svg(
      'text',
      { x: (LEFT + width * (i + 0.5)).toFixed(1), y: ROW * columns.length + 12, 'text-anchor': 'middle' },
      formatValue(value),
    ),
  );
  const height = ROW * columns.length + 16;
  return svg('svg', { class: 'by-eye', viewBox: `0 0 400 ${height}`, 'aria-hidden': 'true' }, ...rows, ...values);
}

const LEFT = 58;
const ROW = 26;

function hex(rgb: readonly number[]): string {
  const two = (x: number) =>
    Math.round(255 * x)
      .toString(16)
      .padStart(2, '0');
  return `#${rgb.map(two).join('')}`;
}
