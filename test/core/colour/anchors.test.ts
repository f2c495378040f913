import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cardPairs, fitAnchorMap, fitMap, type Pair, pairsWith } from '../../../src/core/colour/anchors.ts';
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

describe('how far off the anchors are', () => {
  it('is the root mean square without a map, and beyond all bounds without anchors', () => {
    const two = [
      { from: anchors[0]!, to: anchors[1]! },
      { from: anchors[2]!, to: anchors[3]! },
    ];
    const [one, other] = two.map(({ from, to }) => ciede2000(linearToLab(from), linearToLab(to)));
    expect(fitAnchorMap(two, []).residualWithout).toBeCloseTo(Math.sqrt((one! ** 2 + other! ** 2) / 2), 9);
    expect(fitAnchorMap([], [])).toMatchObject({ kind: 'none', residual: Infinity, residualWithout: Infinity });
  });

  it('is told by maps that hadn’t the anchor judged', () => {
    // A single odd one can't be learnt from the others: it stays as far off as it was.
    const odd = anchors.map((from, i): Pair => ({ from, to: i === 4 ? [0.9, 0.1, 0.1] : from }));
    const map = fitAnchorMap(odd, []);
    expect(map.residual).toBeGreaterThan(0.95 * map.residualWithout);
  });

  it('is mended by greys, which take part without being judged', () => {
    const bluer = (v: Triple): Triple => [0.9 * v[0], v[1], 1.1 * v[2]];
    const few = anchors.slice(0, 3);
    const alone = fitAnchorMap(pairs(few, bluer), []);
    const helped = fitAnchorMap(pairs(few, bluer), pairs(greys, bluer));
    expect(helped.residualWithout).toBeCloseTo(alone.residualWithout, 9);
    expect(helped.residual).toBeLessThan(0.7 * alone.residual);
  });
});

describe('patches in both photos', () => {
  const sample = (id: string, clipped: number) =>
    ({ id, clipped, xMm: 0, yMm: 0, rgb: [0.5, 0.4, 0.3], scatter: [0, 0, 0], count: 1, rejected: 0 }) as const;
  const known = { at1: [0.1, 0.2, 0.3], nt1: [0.8, 0.8, 0.8] } as const;
  const linear = () => [0.4, 0.5, 0.6] as const;

  it('are those known by their ids and not clipped', () => {
    const seen = [sample('at1', 0.09), sample('at2', 0)];
    expect(pairsWith(seen, known, linear)).toEqual([{ id: 'at1', from: [0.4, 0.5, 0.6], to: [0.1, 0.2, 0.3] }]);
    expect(pairsWith([sample('at1', 0.1)], known, linear)).toEqual([]);
  });

  it('are paired apart for colours and greys', () => {
    const card = { version: 1, printMark: null, variant: 'colour', paper: [], slot: [] } as const;
    const both = { ...card, anchors: [sample('at1', 0)], neutrals: [sample('nt1', 0), sample('at1', 0)] };
    const paired = cardPairs(both, { anchors: { at1: known.at1 }, neutrals: { nt1: known.nt1 } }, linear);
    expect(paired.anchors.map(({ id }) => id)).toEqual(['at1']);
    expect(paired.neutrals.map(({ id }) => id)).toEqual(['nt1']);
  });
});
