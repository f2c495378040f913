import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitAnchorMap, fitMap, type Pair } from '../../../src/core/colour/anchors.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { linearToLab, type Triple } from '../../../src/core/colour/lab.ts';
import { ANCHORS, NEUTRALS } from '../../../src/core/card/geometry.ts';
import { decodeSrgb } from '../../../src/core/colour/lab.ts';

const anchors: Triple[] = ANCHORS.map(({ srgb }) => srgb.map(decodeSrgb) as unknown as Triple);
const greys: Triple[] = NEUTRALS.map(({ ink }) => [1 - 0.9 * ink, 1 - 0.9 * ink, 1 - 0.9 * ink]);

const times = (matrix: readonly Triple[], v: Triple): Triple =>
  matrix.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as unknown as Triple;
const pairs = (colours: readonly Triple[], to: (v: Triple) => Triple): Pair[] =>
  colours.map((from) => ({ from, to: to(from) }));

/** A camera's matrix against another's, white kept white. */
const CAMERA: Triple[] = [
  [1.15, -0.12, -0.03],
  [-0.06, 1.1, -0.04],
  [0.02, -0.14, 1.12],
];

describe('the map through the anchors', () => {
  it('leaves colours alone when both photos saw the same', () => {
    const map = fitAnchorMap(
      pairs(anchors, (v) => v),
      pairs(greys, (v) => v),
    );
    expect(map.kind).toBe('none');
    expect(map.apply([0.3, 0.2, 0.1])).toEqual([0.3, 0.2, 0.1]);
    expect(map.residual).toBeCloseTo(0, 9);
  });

  it('finds a matrix between two cameras from colours it was not fitted to', () => {
    const map = fitAnchorMap(
      pairs(anchors, (v) => times(CAMERA, v)),
      pairs(greys, (v) => v),
    );
    expect(map.kind).not.toBe('none');
    expect(map.residual).toBeLessThan(0.35 * map.residualWithout);
    const pale = fc.tuple(...[0, 1, 2].map(() => fc.double({ min: 0.2, max: 0.8, noNaN: true })));
    fc.assert(
      fc.property(pale, (colour) => {
        const linear = colour as unknown as Triple;
        const after = ciede2000(linearToLab(map.apply(linear)), linearToLab(times(CAMERA, linear)));
        const before = ciede2000(linearToLab(linear), linearToLab(times(CAMERA, linear)));
        expect(after).toBeLessThan(Math.max(1, 0.5 * before));
      }),
      { seed: 2015, numRuns: 200 },
    );
  });

  // Finlayson, Mackiewicz & Hurlbert 2015: a root polynomial scales with its argument.
  it('gives a result that scales with exposure', () => {
    const bent = (v: Triple): Triple => {
      const root = 0.15 * Math.sqrt(v[0] * v[1]);
      return [v[0] + root - 0.15 * v[0], v[1], v[2]];
    };
    const map = fitAnchorMap(pairs(anchors, bent), pairs(greys, bent));
    const colour: Triple = [0.5, 0.3, 0.2];
    const half = map.apply([0.25, 0.15, 0.1]);
    map.apply(colour).forEach((value, c) => expect(half[c]).toBeCloseTo(value / 2, 9));
    expect(map.kind).toBe('root-polynomial');
  });

  // The same paper, its main claim: k times the light gives k times the answer, for every colour and every fit.
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

  it('is never worse than no map, even when the anchors are nonsense', () => {
    const nonsense = anchors.map((from, i) => ({ from, to: anchors[(i * 7 + 3) % anchors.length]! }));
    const map = fitAnchorMap(nonsense, []);
    expect(map.residual).toBeLessThanOrEqual(map.residualWithout);
    expect(map.residual).toBeGreaterThan(8);
  });
});
