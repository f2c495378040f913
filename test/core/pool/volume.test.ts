import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { areaOf, type Outline } from '../../../src/core/pool/outline.ts';
import { shapeIssues, surfaceM2, volumeLitres, type Floor, type PoolShape } from '../../../src/core/pool/volume.ts';
import { convert } from '../../../src/core/water/units.ts';

const flat = (depthM: number): Floor => ({ floor: 'flat', depthM });

/** Width of the outline at a place along it, straight from the equation of its curve. */
function widthAt(outline: Outline, x: number): number {
  switch (outline.shape) {
    case 'round':
      return 2 * Math.sqrt(Math.max(0, (outline.diameterM / 2) ** 2 - (x - outline.diameterM / 2) ** 2));
    case 'oval':
      return outline.widthM * Math.sqrt(Math.max(0, 1 - ((2 * x) / outline.lengthM - 1) ** 2));
    case 'rectangle':
      return outline.widthM;
    case 'round-ends': {
      const r = outline.widthM / 2;
      const intoEnd = Math.max(0, r - x, x - (outline.lengthM - r));
      return 2 * Math.sqrt(Math.max(0, r * r - intoEnd * intoEnd));
    }
    default:
      throw new Error('no curve');
  }
}

function depthAt(floor: Floor, share: number): number {
  if (floor.floor === 'flat') return floor.depthM;
  const { shallowM, deepM } = floor;
  if (floor.floor === 'sloped') return shallowM + (deepM - shallowM) * share;
  if (share < floor.shelfShare) return shallowM;
  if (share >= floor.shelfShare + floor.slopeShare) return deepM;
  return shallowM + ((deepM - shallowM) * (share - floor.shelfShare)) / floor.slopeShare;
}

/** Plain summing of thin slices. */
function summed({ outline, floor, belowRimM }: PoolShape): number {
  const length = outline.shape === 'round' ? outline.diameterM : (outline as { lengthM: number }).lengthM;
  const slices = 20_000;
  let sum = 0;
  for (let i = 0; i < slices; i++) {
    const share = (i + 0.5) / slices;
    sum += widthAt(outline, share * length) * (depthAt(floor, share) - belowRimM);
  }
  return (1000 * sum * length) / slices;
}

describe('volume in closed form', () => {
  it('a round pool is a cylinder', () => {
    const pool: PoolShape = { outline: { shape: 'round', diameterM: 5.5 }, floor: flat(1.2), belowRimM: 0.1 };
    expect(volumeLitres(pool)).toBeCloseTo(Math.PI * 2.75 ** 2 * 1.1 * 1000, 6);
    expect(surfaceM2(pool)).toBeCloseTo(23.758, 3);
  });

  it('gives the trade factor for round pools: 5.8752 gal per cubic foot of diameter squared times depth (D014)', () => {
    const foot = convert('length', 1, 'ft', 'm');
    const pool: PoolShape = { outline: { shape: 'round', diameterM: 18 * foot }, floor: flat(4 * foot), belowRimM: 0 };
    expect(convert('volume', volumeLitres(pool), 'L', 'gal')).toBeCloseTo(5.8752 * 18 ** 2 * 4, -1);
    expect(convert('volume', volumeLitres(pool), 'L', 'gal') / (18 ** 2 * 4)).toBeCloseTo(5.8752, 4);
  });

  it('a sloped rectangle is a prism of its mean depth', () => {
    const floor: Floor = { floor: 'sloped', shallowM: 1, deepM: 2.4 };
    expect(
      volumeLitres({ outline: { shape: 'rectangle', lengthM: 10, widthM: 5 }, floor, belowRimM: 0.2 }),
    ).toBeCloseTo(10 * 5 * 1.5 * 1000, 6);
  });

  it('a stepped rectangle is two boxes and a wedge between', () => {
    const floor: Floor = { floor: 'stepped', shallowM: 1.1, deepM: 2.1, shelfShare: 0.4, slopeShare: 0.2 };
    // 4 m x 1.0 + 2 m x 1.5 + 4 m x 2.0, by 5 m
    expect(
      volumeLitres({ outline: { shape: 'rectangle', lengthM: 10, widthM: 5 }, floor, belowRimM: 0.1 }),
    ).toBeCloseTo((4 + 3 + 8) * 5 * 1000, 6);
  });

  it('a slope over a symmetric outline averages to its middle', () => {
    for (const outline of [
      { shape: 'round', diameterM: 6 },
      { shape: 'oval', lengthM: 9, widthM: 5 },
      { shape: 'round-ends', lengthM: 9, widthM: 4 },
    ] as const) {
      const sloped = volumeLitres({ outline, floor: { floor: 'sloped', shallowM: 1, deepM: 2 }, belowRimM: 0 });
      expect(sloped).toBeCloseTo(areaOf(outline) * 1.5 * 1000, 6);
    }
  });

  it('round ends as long as wide are a circle', () => {
    expect(areaOf({ shape: 'round-ends', lengthM: 4, widthM: 4 })).toBeCloseTo(Math.PI * 4, 10);
  });

  it('a kidney follows the common rule, no source: 0.45 x (widths) x length', () => {
    const pool: PoolShape = {
      outline: { shape: 'kidney', lengthM: 8, smallWidthM: 3, largeWidthM: 4 },
      floor: flat(1.5),
      belowRimM: 0,
    };
    expect(volumeLitres(pool)).toBeCloseTo(0.45 * 7 * 8 * 1.5 * 1000, 6);
  });

  it('a free form takes its measured area', () => {
    const outline: Outline = { shape: 'free-form', areaM2: 31 };
    expect(volumeLitres({ outline, floor: flat(1.4), belowRimM: 0.1 })).toBeCloseTo(31 * 1.3 * 1000, 6);
  });
});

// A shelf of 1 m over the first quarter of the length, then 2 m. In a circle of radius 1 the segment up to half a radius
// from the middle is acos(0.5) - 0.5 * sqrt(0.75) = 0.6142; the whole is 3.1416.
describe('volume over a shelf and a step', () => {
  const SEGMENT = Math.acos(0.5) - 0.5 * Math.sqrt(0.75);
  const floor: Floor = { floor: 'stepped', shallowM: 1, deepM: 2, shelfShare: 0.25, slopeShare: 0 };
  const overShelf = (all: number, shelf: number) => 1000 * (shelf + 2 * (all - shelf));

  it.each<[Outline, number, number]>([
    [{ shape: 'round', diameterM: 4 }, 4 * Math.PI, 4 * SEGMENT],
    // Stretched by 3 and 2.
    [{ shape: 'oval', lengthM: 6, widthM: 4 }, 6 * Math.PI, 6 * SEGMENT],
    [{ shape: 'rectangle', lengthM: 8, widthM: 4 }, 32, 8],
    // The shelf is the first half circle.
    [{ shape: 'round-ends', lengthM: 8, widthM: 4 }, 4 * 4 + 4 * Math.PI, 2 * Math.PI],
    // These count as equally wide all along.
    [{ shape: 'free-form', areaM2: 30 }, 30, 7.5],
    [{ shape: 'kidney', lengthM: 8, smallWidthM: 3, largeWidthM: 4 }, 25.2, 6.3],
  ])('%j', (outline, all, shelf) => {
    expect(volumeLitres({ outline, floor, belowRimM: 0 })).toBeCloseTo(overShelf(all, shelf), 6);
  });
});

describe('volume against a plain sum of slices', () => {
  const size = fc.double({ min: 2, max: 20, noNaN: true });
  const depth = fc.double({ min: 0.6, max: 3, noNaN: true });
  const outline: fc.Arbitrary<Outline> = fc.oneof(
    fc.record({ shape: fc.constant('round' as const), diameterM: size }),
    fc.record({ shape: fc.constant('oval' as const), lengthM: size, widthM: size }),
    fc.record({ shape: fc.constant('rectangle' as const), lengthM: size, widthM: size }),
    fc
      .tuple(size, size)
      .map(([a, b]) => ({ shape: 'round-ends' as const, lengthM: Math.max(a, b), widthM: Math.min(a, b) })),
  );
  const floor: fc.Arbitrary<Floor> = fc.oneof(
    fc.record({ floor: fc.constant('flat' as const), depthM: depth }),
    fc.record({ floor: fc.constant('sloped' as const), shallowM: depth, deepM: depth }),
    fc
      .tuple(depth, depth, fc.double({ min: 0, max: 0.6, noNaN: true }), fc.double({ min: 0, max: 0.4, noNaN: true }))
      .map(([shallowM, deepM, shelfShare, slopeShare]) => ({
        floor: 'stepped' as const,
        shallowM,
        deepM,
        shelfShare,
        slopeShare,
      })),
  );

  it('agrees for every outline and floor', () => {
    fc.assert(
      fc.property(outline, floor, fc.double({ min: 0, max: 0.3, noNaN: true }), (o, f, belowRimM) => {
        const pool = { outline: o, floor: f, belowRimM };
        expect(shapeIssues(pool)).toEqual([]);
        expect(volumeLitres(pool) / summed(pool)).toBeCloseTo(1, 3);
      }),
      { seed: 51, numRuns: 60 },
    );
  });
});

describe('measures that make no pool', () => {
  const rectangle: Outline = { shape: 'rectangle', lengthM: 8, widthM: 4 };

  it.each<[string, PoolShape]>([
    ['size-not-positive', { outline: { shape: 'round', diameterM: 0 }, floor: flat(1), belowRimM: 0 }],
    ['size-not-positive', { outline: { shape: 'round', diameterM: Number.NaN }, floor: flat(1), belowRimM: 0 }],
    ['size-not-positive', { outline: rectangle, floor: flat(-1), belowRimM: 0 }],
    ['size-not-positive', { outline: rectangle, floor: flat(1), belowRimM: -0.1 }],
    ['too-large', { outline: { shape: 'round', diameterM: 550 }, floor: flat(1), belowRimM: 0 }],
    ['too-large', { outline: rectangle, floor: flat(120), belowRimM: 0 }],
    ['above-floor', { outline: rectangle, floor: flat(1), belowRimM: 1.2 }],
    ['above-floor', { outline: rectangle, floor: { floor: 'sloped', shallowM: 0.3, deepM: 2 }, belowRimM: 0.4 }],
    ['ends-wider-than-long', { outline: { shape: 'round-ends', lengthM: 3, widthM: 4 }, floor: flat(1), belowRimM: 0 }],
    [
      'shares-over-one',
      {
        outline: rectangle,
        floor: { floor: 'stepped', shallowM: 1, deepM: 2, shelfShare: 0.7, slopeShare: 0.5 },
        belowRimM: 0,
      },
    ],
  ])('%s', (issue, pool) => {
    expect(shapeIssues(pool)).toContain(issue);
  });
});

describe('measures that just make one', () => {
  const rectangle: Outline = { shape: 'rectangle', lengthM: 100, widthM: 4 };
  const stepped = (shelfShare: number, slopeShare: number): Floor => ({
    floor: 'stepped',
    shallowM: 1,
    deepM: 2,
    shelfShare,
    slopeShare,
  });

  it.each<PoolShape>([
    { outline: rectangle, floor: flat(10), belowRimM: 0 },
    { outline: { shape: 'free-form', areaM2: 5000 }, floor: flat(1), belowRimM: 0.99 },
    { outline: { shape: 'round-ends', lengthM: 4, widthM: 4 }, floor: flat(1), belowRimM: 0 },
    { outline: rectangle, floor: stepped(0, 0), belowRimM: 0 },
    { outline: rectangle, floor: stepped(0.5, 0.5), belowRimM: 0 },
  ])('%j', (pool) => {
    expect(shapeIssues(pool)).toEqual([]);
  });

  it.each<[string, PoolShape]>([
    ['too-large', { outline: { ...rectangle, lengthM: 100.1 }, floor: flat(1), belowRimM: 0 }],
    ['too-large', { outline: { shape: 'free-form', areaM2: 5001 }, floor: flat(1), belowRimM: 0 }],
    ['too-large', { outline: rectangle, floor: { floor: 'sloped', shallowM: 1, deepM: 10.1 }, belowRimM: 0 }],
    ['above-floor', { outline: rectangle, floor: flat(1), belowRimM: 1 }],
    [
      'ends-wider-than-long',
      { outline: { shape: 'round-ends', lengthM: 4, widthM: 4.1 }, floor: flat(1), belowRimM: 0 },
    ],
    ['size-not-positive', { outline: rectangle, floor: stepped(-0.1, 0.5), belowRimM: 0 }],
    ['size-not-positive', { outline: rectangle, floor: stepped(0.5, -0.1), belowRimM: 0 }],
    ['shares-over-one', { outline: rectangle, floor: stepped(0.6, 0.5), belowRimM: 0 }],
    ['size-not-positive', { outline: rectangle, floor: { floor: 'sloped', shallowM: 1, deepM: NaN }, belowRimM: 0 }],
  ])('or not: %s, and nothing else', (issue, pool) => {
    expect(shapeIssues(pool).filter((code) => code !== 'above-floor' || issue === code)).toEqual([issue]);
  });
});
