/** The smooth curve through a pad's blocks: colour and value along it. */
import { ciede2000 } from '../colour/difference.ts';
import type { Triple } from '../colour/lab.ts';
import { pchip } from '../math/pchip.ts';
import type { ScalePad } from './schema.ts';

export interface ScaleCurve {
  /** Position of each block along the curve, in CIEDE2000 steps summed from the first block. */
  readonly positions: readonly number[];
  /** Length of the curve: position of the last block. */
  readonly length: number;
  /** Lab D65 at a position; goes on straight beyond the ends. */
  labAt(position: number): Triple;
  /** Value at a position, held at the scale's ends beyond them. */
  valueAt(position: number): number;
  /** Position of a value; values beyond the scale give its ends. */
  positionOf(value: number): number;
  /**
   * Position among the blocks: 1.5 is half way between the second and the third. Beyond the ends it goes on in
   * CIEDE2000. Lets two curves through the same blocks, seen in different light, be walked together.
   */
  blockAt(position: number): number;
  positionAtBlock(block: number): number;
}

/* Two blocks of the same colour would leave the curve without direction. */
const SMALLEST_STEP = 0.05;

export function curveThrough(pad: ScalePad): ScaleCurve {
  const labs = pad.blocks.map((block): Triple => block.lab);
  const values = pad.blocks.map((block) => block.value);
  const positions = [0];
  for (let i = 1; i < labs.length; i++) {
    positions.push(positions[i - 1]! + Math.max(SMALLEST_STEP, ciede2000(labs[i - 1]!, labs[i]!)));
  }
  const length = positions.at(-1)!;
  const last = positions.length - 1;
  const coordinate = (k: 0 | 1 | 2) =>
    pchip(
      positions,
      labs.map((lab) => lab[k]),
    );
  const [l, a, b] = [coordinate(0), coordinate(1), coordinate(2)];
  const value = pchip(positions, values);
  const clamp = (position: number) => Math.min(length, Math.max(0, position));
  const valueAt = (position: number) => value(clamp(position));

  return {
    positions,
    length,
    labAt: (position) => [l(position), a(position), b(position)],
    valueAt,
    positionOf: (wanted) => invertRising(valueAt, wanted, length),
    blockAt: (position) => {
      if (position <= 0) return position;
      if (position >= length) return last + position - length;
      const i = positions.findLastIndex((at) => at <= position);
      return i + (position - positions[i]!) / (positions[i + 1]! - positions[i]!);
    },
    positionAtBlock: (block) => {
      if (block <= 0) return block;
      if (block >= last) return length + block - last;
      const i = Math.floor(block);
      return positions[i]! + (block - i) * (positions[i + 1]! - positions[i]!);
    },
  };
}

function invertRising(rising: (x: number) => number, wanted: number, length: number): number {
  if (wanted <= rising(0)) return 0;
  if (wanted >= rising(length)) return length;
  let low = 0;
  let high = length;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (rising(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
