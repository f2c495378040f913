import { BY_EYE, neighboursByEye } from '../../../src/core/scale/by-eye.ts';
import type { ScalePad } from '../../../src/core/scale/schema.ts';
import { phPad } from './fixtures.ts';
import { describe, expect, it } from 'vitest';

/** Red against green of like lightness: the textbook pair that red-green deficiencies confuse. */
const redGreen: ScalePad = {
  parameter: 'ph',
  unit: 'pH',
  centreMm: 5,
  widthMm: 5,
  heightMm: 5,
  blocks: [
    { value: 7, lab: [55, 22, 30] },
    { value: 8, lab: [55, -4, 30] },
    { value: 9, lab: [55, -4, 31] },
  ],
};

it('reports each pair of neighbours once, with its values', () => {
  expect(neighboursByEye(redGreen, null).map(({ from, to }) => [from, to])).toEqual([
    [7, 8],
    [8, 9],
  ]);
});

it('calls red and green apart for full vision, and closer the stronger a red-green deficiency is', () => {
  const gap = (strength: number) => neighboursByEye(redGreen, { deficiency: 'deutan', strength })[0]!.deltaE;
  expect(neighboursByEye(redGreen, null)[0]!.verdict).toBe('apart');
  expect(gap(0)).toBeGreaterThan(gap(0.5));
  expect(gap(0.5)).toBeGreaterThan(gap(1));
  expect(gap(1)).toBeLessThan(gap(0) / 3);
});

it('leaves red and green apart for tritan eyes', () => {
  const [pair] = neighboursByEye(redGreen, { deficiency: 'tritan', strength: 1 });
  expect(pair!.verdict).toBe('apart');
});

it('says same where not even full vision can tell', () => {
  const [, pair] = neighboursByEye(redGreen, null);
  expect(pair!.deltaE).toBeLessThan(BY_EYE.same);
  expect(pair!.verdict).toBe('same');
});

describe('the limits of looking', () => {
  /** Two greys about L* 50, where a step in L* is one of CIEDE2000 but for a hundredth. */
  const verdict = (step: number) => {
    const blocks = [0, 1].map((i) => ({ value: i, lab: [50 + step * (i - 0.5), 0, 0] as [number, number, number] }));
    return neighboursByEye({ ...phPad(), blocks }, null)[0]!.verdict;
  };

  // Judged to a tenth: 1.94 is shown as 1.9, 1.96 as 2.0.
  it.each([
    [1.94, 'same'],
    [1.96, 'close'],
    [3.94, 'close'],
    [3.96, 'apart'],
    [9, 'apart'],
  ] as const)('a step of %d: %s', (step, expected) => {
    expect(verdict(step)).toBe(expected);
  });
});
