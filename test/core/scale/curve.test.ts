import { describe, expect, it } from 'vitest';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { curveThrough } from '../../../src/core/scale/curve.ts';
import { phPad, saturatingPad } from './fixtures.ts';

describe('the curve through the blocks', () => {
  it.each([phPad(), saturatingPad()])('passes through every block of $parameter at its value', (pad) => {
    const curve = curveThrough(pad);
    pad.blocks.forEach((block, i) => {
      const position = curve.positions[i]!;
      expect(ciede2000(curve.labAt(position), block.lab)).toBeLessThan(1e-6);
      expect(curve.valueAt(position)).toBeCloseTo(block.value, 9);
      expect(curve.positionOf(block.value)).toBeCloseTo(position, 6);
    });
  });

  it('rises in value all along and holds the ends beyond them', () => {
    const curve = curveThrough(saturatingPad());
    let before = -1;
    for (let position = 0; position <= curve.length; position += curve.length / 200) {
      expect(curve.valueAt(position)).toBeGreaterThan(before);
      before = curve.valueAt(position);
    }
    expect(curve.valueAt(-5)).toBe(0);
    expect(curve.valueAt(curve.length + 5)).toBe(10);
  });

  it('moves one unit of CIEDE2000 per unit of position, about', () => {
    const curve = curveThrough(phPad());
    for (let position = 0; position + 1 <= curve.length; position++) {
      const step = ciede2000(curve.labAt(position), curve.labAt(position + 1));
      expect(step).toBeGreaterThan(0.6);
      expect(step).toBeLessThan(1.5);
    }
  });

  it('bears two blocks of the same colour', () => {
    const pad = phPad();
    pad.blocks[2]!.lab = [...pad.blocks[1]!.lab];
    const curve = curveThrough(pad);
    expect(Number.isFinite(curve.labAt(curve.positions[1]!)[0])).toBe(true);
    expect(curve.valueAt(curve.positions[2]!)).toBeCloseTo(7.2, 6);
  });

  it('counts places among the blocks, and beyond the ends in CIEDE2000', () => {
    const curve = curveThrough(phPad());
    const [, one, two] = curve.positions as [number, number, number];
    expect(curve.blockAt(0)).toBe(0);
    expect(curve.blockAt(one)).toBe(1);
    expect(curve.blockAt(one + 0.25 * (two - one))).toBeCloseTo(1.25, 9);
    expect(curve.blockAt(curve.length)).toBe(4);
    expect(curve.blockAt(curve.length + 3)).toBeCloseTo(7, 9);
    expect(curve.blockAt(-3)).toBe(-3);
    expect(curve.positionAtBlock(1.25)).toBeCloseTo(one + 0.25 * (two - one), 9);
    expect(curve.positionAtBlock(7)).toBeCloseTo(curve.length + 3, 9);
    for (const block of [-2, 0, 0.5, 1, 2.7, 3.9, 4, 5.5]) {
      expect(curve.blockAt(curve.positionAtBlock(block))).toBeCloseTo(block, 9);
    }
  });

  it('gives its ends for values beyond the scale', () => {
    const curve = curveThrough(phPad());
    expect(curve.positionOf(5)).toBe(0);
    expect(curve.positionOf(6.2)).toBe(0);
    expect(curve.positionOf(9)).toBe(curve.length);
    expect(curve.positionOf(8.4)).toBe(curve.length);
  });
});
