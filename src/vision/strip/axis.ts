/** The strip's long axis from its two long edges. */
import { solveSymmetric } from '../../core/math/least-squares.ts';
import { type Background, columnMm, type Grid, planeAt, rowMm } from './grid.ts';

/** y = c + k x (mm on the card) along the middle of the strip. */
export interface Axis {
  readonly interceptMm: number;
  readonly slope: number;
  /** Length over which edges were seen, mm. */
  readonly seenMm: number;
}

/** A cell belongs to the strip when it is this much brighter than the bare slot, or this much off its hue. */
const BRIGHTER = 1.1;
const OFF_HUE = 0.06;

/** Marks the cells that aren't bare slot nor its shadowed grey: 1 where the strip may be. */
export function stripMask(grid: Grid, { planes }: Background): Uint8Array {
  const { columns, rows, rgb } = grid;
  const [red, green, blue] = planes;
  const mask = new Uint8Array(columns * rows);
  const xs = Float64Array.from({ length: columns }, (_, column) => columnMm(grid, column));
  for (let row = 0, i = 0; row < rows; row++) {
    const y = rowMm(grid, row);
    for (let column = 0; column < columns; column++, i++) {
      const x = xs[column]!;
      const r = (rgb[3 * i]! + 4) / (planeAt(red, x, y) + 4);
      const g = (rgb[3 * i + 1]! + 4) / (planeAt(green, x, y) + 4);
      const b = (rgb[3 * i + 2]! + 4) / (planeAt(blue, x, y) + 4);
      const mean = (r + g + b) / 3;
      const offHue = Math.max(Math.abs(r / mean - 1), Math.abs(g / mean - 1), Math.abs(b / mean - 1));
      if (mean > BRIGHTER || offHue > OFF_HUE) mask[i] = 1;
    }
  }
  return mask;
}

interface Edge {
  readonly x: number;
  readonly y: number;
  /** -1 for the strip's upper edge, +1 for the lower. */
  readonly side: -1 | 1;
}

const MIN_SEEN_MM = 25;
/** Of a strip that overlaps the slot's edge, this much must lie in the slot. */
const MIN_OVERLAP_MM = 1;

/**
 * @param widthMm the strip's width
 * @returns null when nothing of that width lies along the slot
 */
export function findAxis(grid: Grid, mask: Uint8Array, widthMm: number): Axis | null {
  const edges = edgesOf(grid, mask, widthMm);
  const whole = edges.filter((edge) => edge.whole);
  const enough = whole.length * grid.stepMm >= MIN_SEEN_MM;
  let line = enough
    ? theilSen(whole.map((edge) => ({ x: edge.x, y: edge.middle })))
    : lineOverEdge(edges, grid, widthMm);
  if (!line) return null;
  const sides = edges.flatMap((edge) => edge.sides);
  for (let pass = 0; pass < 4; pass++) line = refineLine(sides, widthMm, line, pass < 2 ? 1.2 : 0.5);
  const near = sides.filter((edge) => Math.abs(residual(edge, line, widthMm)) < 0.6);
  const seenMm = new Set(near.map((edge) => edge.x)).size * grid.stepMm;
  return seenMm < MIN_SEEN_MM ? null : { interceptMm: line.c, slope: line.k, seenMm };
}

/** Where a strip overlaps the slot's edge, it is white on white there, and only its other edge is seen. */
function lineOverEdge(edges: readonly ColumnEdges[], grid: Grid, widthMm: number): Line | null {
  for (const side of [-1, 1] as const) {
    const seen = edges.flatMap((edge) => edge.sides.filter((one) => edge.overlaps && one.side === side));
    if (seen.length * grid.stepMm < MIN_SEEN_MM) continue;
    return theilSen(seen.map(({ x, y }) => ({ x, y: y - (side * widthMm) / 2 })));
  }
  return null;
}

interface ColumnEdges {
  readonly x: number;
  readonly middle: number;
  /** Both edges seen inside the slot, about the strip's width apart. */
  readonly whole: boolean;
  /** Only one edge is seen: the strip reaches the slot's border, or beyond. */
  readonly overlaps: boolean;
  readonly sides: Edge[];
}

function edgesOf(grid: Grid, mask: Uint8Array, widthMm: number): ColumnEdges[] {
  const found: ColumnEdges[] = [];
  for (let column = 0; column < grid.columns; column++) {
    const run = longestRun(grid, mask, column);
    if (!run) continue;
    const x = grid.x0Mm + (column + 0.5) * grid.stepMm;
    const top = grid.y0Mm + run.from * grid.stepMm;
    const bottom = grid.y0Mm + (run.to + 1) * grid.stepMm;
    const topSeen = run.from > 1;
    const bottomSeen = run.to < grid.rows - 2;
    const height = bottom - top;
    const sides: Edge[] = [];
    const overlaps = topSeen !== bottomSeen && height > MIN_OVERLAP_MM && height < 1.1 * widthMm;
    if (overlaps || (height > 0.6 * widthMm && height < 1.5 * widthMm)) {
      if (topSeen) sides.push({ x, y: top, side: -1 });
      if (bottomSeen) sides.push({ x, y: bottom, side: 1 });
    }
    const whole = topSeen && bottomSeen && Math.abs(height - widthMm) < 0.3 * widthMm;
    found.push({ x, middle: (top + bottom) / 2, whole, overlaps, sides });
  }
  return found;
}

function longestRun(grid: Grid, mask: Uint8Array, column: number): { from: number; to: number } | null {
  let best: { from: number; to: number } | null = null;
  let from = -1;
  for (let row = 0; row <= grid.rows; row++) {
    const inside = row < grid.rows && mask[row * grid.columns + column] === 1;
    if (inside && from < 0) from = row;
    if (!inside && from >= 0) {
      if (!best || row - from > best.to - best.from + 1) best = { from, to: row - 1 };
      from = -1;
    }
  }
  return best;
}

interface Line {
  readonly c: number;
  readonly k: number;
}

/** Median of pairwise slopes (Theil 1950, Sen 1968): up to 29 % of the columns may be wrong. */
function theilSen(points: readonly { x: number; y: number }[]): Line {
  const stride = Math.max(1, Math.floor(points.length / 80));
  const some = points.filter((_, i) => i % stride === 0);
  const slopes: number[] = [];
  for (let i = 0; i < some.length; i++) {
    for (let j = i + 1; j < some.length; j++) {
      const dx = some[j]!.x - some[i]!.x;
      if (dx > 5) slopes.push((some[j]!.y - some[i]!.y) / dx);
    }
  }
  const k = slopes.length > 0 ? upperMedian(slopes) : 0;
  return { k, c: upperMedian(some.map((point) => point.y - k * point.x)) };
}

function residual(edge: Edge, line: Line, widthMm: number): number {
  const half = (widthMm / 2) * Math.sqrt(1 + line.k * line.k);
  return edge.y - (line.c + line.k * edge.x + edge.side * half);
}

/** One weighted least-squares pass (Tukey's biweight) over both edges at the known width. */
function refineLine(edges: readonly Edge[], widthMm: number, line: Line, scaleMm: number): Line {
  const a = [
    [1e-6, 0],
    [0, 1e-6],
  ];
  const b = [0, 0];
  for (const edge of edges) {
    const r = residual(edge, line, widthMm);
    if (Math.abs(r) >= scaleMm) continue;
    const weight = (1 - (r / scaleMm) ** 2) ** 2;
    const terms = [1, edge.x - 74];
    terms.forEach((left, j) => {
      b[j]! += weight * left * r;
      terms.forEach((right, k) => (a[j]![k]! += weight * left * right));
    });
  }
  const [dc, dk] = solveSymmetric(a, b) as [number, number];
  return { c: line.c + dc - 74 * dk, k: line.k + dk };
}

/** One of the values themselves: of an even number, the upper of the middle two. */
function upperMedian(values: readonly number[]): number {
  return values.toSorted((one, two) => one - two)[values.length >> 1] ?? 0;
}
