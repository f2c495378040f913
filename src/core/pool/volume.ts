/** How much water a pool holds, from its shape. */
import { alongOf, areaOf, type Outline } from './outline.ts';

/** Depths from the rim to the floor, metres; they change along the length only. */
export type Floor =
  | { readonly floor: 'flat'; readonly depthM: number }
  /** An even slope from one end to the other. */
  | { readonly floor: 'sloped'; readonly shallowM: number; readonly deepM: number }
  /** A level shelf, then (if `slopeShare` is more than 0) a slope, then a level deep part. Shares of the length. */
  | {
      readonly floor: 'stepped';
      readonly shallowM: number;
      readonly deepM: number;
      readonly shelfShare: number;
      readonly slopeShare: number;
    };

export interface PoolShape {
  readonly outline: Outline;
  readonly floor: Floor;
  /** From the rim down to the water. */
  readonly belowRimM: number;
}

export type ShapeIssue = 'size-not-positive' | 'too-large' | 'ends-wider-than-long' | 'above-floor' | 'shares-over-one';

/** No home pool is longer or wider, m; nor has a larger surface, m2; nor is deeper, m. */
const LARGEST = { lengthM: 100, areaM2: 5000, depthM: 10 } as const;

/** What is wrong with the measures; empty when a volume can be worked out. */
export function shapeIssues({ outline, floor, belowRimM }: PoolShape): ShapeIssue[] {
  const issues = new Set<ShapeIssue>();
  for (const [name, value] of Object.entries(outline)) {
    if (typeof value !== 'number') continue;
    if (!(value > 0)) issues.add('size-not-positive');
    if (value > (name === 'areaM2' ? LARGEST.areaM2 : LARGEST.lengthM)) issues.add('too-large');
  }
  if (outline.shape === 'round-ends' && outline.lengthM < outline.widthM) issues.add('ends-wider-than-long');
  const depths = floor.floor === 'flat' ? [floor.depthM] : [floor.shallowM, floor.deepM];
  if (!depths.every((depth) => depth > 0) || !(belowRimM >= 0)) issues.add('size-not-positive');
  if (depths.some((depth) => depth > LARGEST.depthM)) issues.add('too-large');
  if (Math.min(...depths) <= belowRimM) issues.add('above-floor');
  if (floor.floor === 'stepped') {
    if (!(floor.shelfShare >= 0 && floor.slopeShare >= 0)) issues.add('size-not-positive');
    if (floor.shelfShare + floor.slopeShare > 1) issues.add('shares-over-one');
  }
  return [...issues];
}

/** @returns litres; call `shapeIssues` first */
export function volumeLitres({ outline, floor, belowRimM }: PoolShape): number {
  const along = alongOf(outline);
  const pieces = depthPieces(floor);
  const cubicMetres = pieces.reduce((sum, { from, to, depthFrom, depthTo }) => {
    if (to <= from) return sum;
    const slope = (depthTo - depthFrom) / (to - from);
    const area = along.area(to) - along.area(from);
    const moment = along.moment(to) - along.moment(from);
    return sum + (depthFrom - slope * from - belowRimM) * area + slope * moment;
  }, 0);
  return 1000 * cubicMetres;
}

/** Surface of the water, m2: what evaporates, and what rain falls on. */
export function surfaceM2(shape: PoolShape): number {
  return areaOf(shape.outline);
}

interface Piece {
  readonly from: number;
  readonly to: number;
  readonly depthFrom: number;
  readonly depthTo: number;
}

function depthPieces(floor: Floor): Piece[] {
  if (floor.floor === 'flat') return [{ from: 0, to: 1, depthFrom: floor.depthM, depthTo: floor.depthM }];
  const { shallowM, deepM } = floor;
  if (floor.floor === 'sloped') return [{ from: 0, to: 1, depthFrom: shallowM, depthTo: deepM }];
  const shelf = floor.shelfShare;
  const deep = shelf + floor.slopeShare;
  return [
    { from: 0, to: shelf, depthFrom: shallowM, depthTo: shallowM },
    { from: shelf, to: deep, depthFrom: shallowM, depthTo: deepM },
    { from: deep, to: 1, depthFrom: deepM, depthTo: deepM },
  ];
}
