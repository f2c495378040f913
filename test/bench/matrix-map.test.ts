import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Triple } from '../../src/core/colour/lab.ts';
import { fitMap } from './matrix-map.ts';

describe('maps by a matrix', () => {
  // Finlayson, Mackiewicz & Hurlbert 2015, the main claim: k times the light gives k times the answer, for every colour and every fit.
  it.each(['linear', 'root-polynomial'] as const)('is exposure-invariant: %s', (kind) => {
    const level = fc.double({ min: 0.02, max: 0.9, noNaN: true });
    const colour = fc.tuple(level, level, level);
    const fitted = fc.array(fc.tuple(colour, colour), { minLength: 12, maxLength: 24 });
    fc.assert(
      fc.property(fitted, colour, fc.double({ min: 0.1, max: 10, noNaN: true }), (seen, linear, exposure) => {
        const map = fitMap(
          kind,
          seen.map(([from, to]) => ({ from, to })),
        );
        const brighter = map(linear.map((value) => exposure * value) as unknown as Triple);
        map(linear).forEach((value, c) => expect(brighter[c]! / exposure).toBeCloseTo(value, 9));
      }),
      { seed: 1460, numRuns: 100 },
    );
  });
});

describe('a single pair', () => {
  // Its weight is 1 / (1.5 + 0.03)^(4/3) = 0.5672; held by 0.2, the change of 0.5 comes to 0.5 * 0.5672 / 0.7672 = 0.3697.
  it.each(['linear', 'root-polynomial'] as const)('is followed as far as the ridge lets it: %s', (kind) => {
    const map = fitMap(kind, [{ from: [1, 0, 0], to: [1.5, 0, 0] }]);
    const [r, g, b] = map([1, 0, 0]);
    expect(r).toBeCloseTo(1.3697, 4);
    expect(g).toBeCloseTo(0, 9);
    expect(b).toBeCloseTo(0, 9);
  });

  // Terms 4, 1, 0, 2, 0, 0: squares 21. Red from 4 to 5 weighs 1 / 5.03^(4/3) = 0.1160: 21 * 0.1160 / (0.2 + 21 * 0.1160).
  it('has roots of the products of its channels', () => {
    const [r] = fitMap('root-polynomial', [{ from: [4, 1, 0], to: [5, 1, 0] }])([4, 1, 0]);
    expect(r).toBeCloseTo(4 + (21 * 0.11602) / (0.2 + 21 * 0.11602), 4);
    const [, , b] = fitMap('root-polynomial', [{ from: [0, 1, 4], to: [0, 1, 5] }])([0, 1, 4]);
    expect(b).toBeCloseTo(4 + (21 * 0.11602) / (0.2 + 21 * 0.11602), 4);
    // Below nothing a root is nothing, and no weight is more than that of black: 1 / 0.03^(4/3) = 107.3.
    const [dark] = fitMap('root-polynomial', [{ from: [0.1, -0.1, 0], to: [-0.2, -0.1, 0] }])([0.1, -0.1, 0]);
    expect(dark).toBeCloseTo(0.1 - (0.3 * 0.02 * 107.28) / (0.2 + 0.02 * 107.28), 3);
  });
});
