import { describe, expect, it } from 'vitest';
import { labToLinear } from '../../../src/core/colour/lab.ts';
import { tintOf } from '../../../src/core/reading/shared-errors.ts';

describe('the tint of the bare plastic', () => {
  it('is how far it comes out from its own hue and chroma, however bright', () => {
    const lab = [90, 1, 2] as const;
    expect(tintOf({ lab, linear: labToLinear([90, 1, 2]) })).toBeCloseTo(0, 6);
    // hypot(4 - 1, 6 - 2) = 5.
    expect(tintOf({ lab, linear: labToLinear([82, 4, 6]) })).toBeCloseTo(5, 6);
    expect(tintOf({ lab, linear: labToLinear([95, -2, -2]) })).toBeCloseTo(5, 6);
  });
});
