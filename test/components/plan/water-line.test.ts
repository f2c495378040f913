import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drawWaterLine, placeIndex, REACH } from '../../../src/components/plan/water-line.ts';
import { toMarkup } from '../../../src/components/svg.ts';

describe('the line between etching and scaling', () => {
  it('has balance in its middle, etching on the left, scaling on the right', () => {
    expect(placeIndex(0)).toBe(0.5);
    expect(placeIndex(-REACH)).toBe(0);
    expect(placeIndex(REACH)).toBe(1);
  });

  it('holds what lies beyond at its ends, and keeps the order', () => {
    const index = fc.oneof(fc.double({ min: -10, max: 10, noNaN: true }), fc.constant(-Infinity));
    fc.assert(
      fc.property(index, index, (one, two) => {
        const [less, more] = one < two ? [one, two] : [two, one];
        expect(placeIndex(less)).toBeGreaterThanOrEqual(0);
        expect(placeIndex(less)).toBeLessThanOrEqual(placeIndex(more));
        expect(placeIndex(more)).toBeLessThanOrEqual(1);
      }),
      { seed: 7, numRuns: 200 },
    );
  });

  it('can be drawn for water without calcium, whose index has no number', () => {
    const water = { index: -Infinity, low: -Infinity, high: -Infinity, target: { low: -0.3, high: 0.3 } };
    expect(toMarkup(drawWaterLine(water, 'far below'))).not.toMatch(/NaN|Infinity/);
  });
});
