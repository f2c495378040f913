import { describe, expect, it } from 'vitest';
import { labToLinear } from '../../../src/core/colour/lab.ts';
import { compress, expand } from '../../../src/core/colour/compressed.ts';
import type { Triple } from '../../../src/core/colour/lab.ts';
import { tintOf, withoutSharedErrors } from '../../../src/core/reading/shared-errors.ts';
import { curveThrough } from '../../../src/core/scale/curve.ts';
import { phPad } from '../scale/fixtures.ts';

describe('the tint of the bare plastic', () => {
  it('is how far it comes out from its own hue and chroma, however bright', () => {
    const lab = [90, 1, 2] as const;
    expect(tintOf({ lab, linear: labToLinear([90, 1, 2]) })).toBeCloseTo(0, 6);
    // hypot(4 - 1, 6 - 2) = 5.
    expect(tintOf({ lab, linear: labToLinear([82, 4, 6]) })).toBeCloseTo(5, 6);
    expect(tintOf({ lab, linear: labToLinear([95, -2, -2]) })).toBeCloseTo(5, 6);
  });
});

describe('how sure a place is', () => {
  /** Blocks of a straight way from a green through compressed CIELAB, so many degrees above a*. */
  const towards = (degrees: number) => {
    const [a, b] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    const [l, a0, b0] = compress([70, -30, 10]);
    const labAt = (i: number): Triple => expand([l, a0 + 6 * i * a, b0 + 6 * i * b]);
    return curveThrough({ ...phPad(), blocks: [0, 1, 2, 3].map((i) => ({ value: 6 + i, lab: [...labAt(i)] })) });
  };
  const nothing = (linears: readonly Triple[]) =>
    linears.flatMap(() => [0, 1, 2].map(() => linears.flatMap(() => [0, 0, 0])));
  const sigmaOn = (degrees: number, lightSigma: number) => {
    const curve = towards(degrees);
    const pad = { linear: labToLinear(curve.labAt(9)), curve, position: 9, sigma: 0.8, lightSigma };
    return withoutSharedErrors([pad], null, nothing)[0]!.sigma;
  };

  it('falls where lights differ along the curve, and hardly where they differ across it', () => {
    const lostAlong = sigmaOn(-50, 4) ** 2 - sigmaOn(-50, 0) ** 2;
    const lostAcross = sigmaOn(40, 4) ** 2 - sigmaOn(40, 0) ** 2;
    expect(lostAlong).toBeGreaterThan(8);
    expect(lostAcross).toBeLessThan(lostAlong / 4);
  });
});
