/** Places in the photo that look like printed blocks: flat colour, four straight sides, of a block's size. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../core/card/geometry.ts';
import type { Point } from '../../core/card/homography.ts';
import type { Pixels } from '../pixels.ts';
import { type Cells, cellsOf, centreOf, smoothed, stepBetween } from './cells.ts';
import type { Plane } from './plane.ts';
import { boxAround, hullOf } from './shape.ts';

export interface Candidate {
  /** In the photo, px, and on the card's plane, mm. */
  readonly centre: Point;
  readonly centreMm: Point;
  /** The longer side first. */
  readonly sidesMm: readonly [number, number];
  /** Mean encoded colour, 0-255. */
  readonly rgb: readonly [number, number, number];
}

const CELLS_PER_MM = 2.5;
/** Charts further from the card than this aren't looked for: its light can't be told from there. */
const MAX_MM_AWAY = 170;
/** Between neighbouring cells of one block the colour changes by less than this, levels; each is tried. */
const CALM_STEPS = [1.6, 2.6, 4.2] as const;
const MIN_SIDE_MM = 2;
const MAX_SIDE_MM = 26;
const MAX_ASPECT = 3.5;
/** Share of the smallest rectangle about it that a block fills; its edge cells aren't calm and so are missing. */
const MIN_FILL = 0.8;

export function findCandidates(photo: Pixels, plane: Plane): Candidate[] {
  const pxPerMm = plane.pxPerMmAt(plane.toPhoto([CARD_WIDTH_MM / 2, CARD_HEIGHT_MM / 2]));
  const area = areaAround(photo, plane);
  const cells = smoothed(cellsOf(photo, area, Math.max(1, Math.round(pxPerMm / CELLS_PER_MM))));
  const barred = onCard(cells, plane);
  const found: Candidate[] = [];
  for (const most of CALM_STEPS) {
    for (const members of calmAreas(cells, barred, most)) {
      const candidate = candidateFrom(cells, plane, members);
      if (candidate && !found.some((known) => coincide(known, candidate))) found.push(candidate);
    }
  }
  return found;
}

function coincide(one: Candidate, other: Candidate): boolean {
  const [dx, dy] = [one.centreMm[0] - other.centreMm[0], one.centreMm[1] - other.centreMm[1]];
  return Math.hypot(dx, dy) < 0.4 * one.sidesMm[1];
}

function areaAround(photo: Pixels, plane: Plane) {
  const xs: number[] = [];
  const ys: number[] = [];
  for (const xMm of [-MAX_MM_AWAY, CARD_WIDTH_MM + MAX_MM_AWAY]) {
    for (const yMm of [-MAX_MM_AWAY, CARD_HEIGHT_MM + MAX_MM_AWAY]) {
      const [x, y] = plane.toPhoto([xMm, yMm]);
      xs.push(x);
      ys.push(y);
    }
  }
  // Beyond the horizon places come out anywhere: then the whole photo is looked at.
  const sane = [...xs, ...ys].every((value) => Math.abs(value) < 20 * Math.max(photo.width, photo.height));
  if (!sane) return { left: 0, top: 0, right: photo.width, bottom: photo.height };
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}

const CARD_MARGIN_MM = 2;

function onCard(cells: Cells, plane: Plane): Uint8Array {
  return Uint8Array.from({ length: cells.columns * cells.rows }, (_, cell) => {
    const [xMm, yMm] = plane.toCard(centreOf(cells, cell));
    const inside =
      xMm > -CARD_MARGIN_MM &&
      yMm > -CARD_MARGIN_MM &&
      xMm < CARD_WIDTH_MM + CARD_MARGIN_MM &&
      yMm < CARD_HEIGHT_MM + CARD_MARGIN_MM;
    return inside ? 1 : 0;
  });
}

/** Connected areas in which the colour changes only gently, too large ones left out. */
function calmAreas(cells: Cells, barred: Uint8Array, most: number): number[][] {
  const { columns, rows } = cells;
  const calm = new Uint8Array(columns * rows);
  for (let row = 1; row < rows - 1; row++) {
    for (let column = 1; column < columns - 1; column++) {
      const cell = row * columns + column;
      if (barred[cell]) continue;
      const steps = [1, -1, columns, -columns].map((step) => stepBetween(cells, cell, cell + step));
      if (Math.max(...steps) <= most) calm[cell] = 1;
    }
  }
  const areas: number[][] = [];
  for (let cell = 0; cell < calm.length; cell++) {
    if (!calm[cell]) continue;
    areas.push(flood(calm, columns, cell));
  }
  return areas;
}

/** Takes the connected calm cells out of the mask. */
function flood(calm: Uint8Array, columns: number, start: number): number[] {
  const members = [start];
  calm[start] = 0;
  // Grows while it is gone through.
  for (const member of members) {
    for (const step of [1, -1, columns, -columns]) {
      const other = member + step;
      if (!calm[other]) continue;
      calm[other] = 0;
      members.push(other);
    }
  }
  return members;
}

function candidateFrom(cells: Cells, plane: Plane, members: readonly number[]): Candidate | null {
  if (members.length < 8) return null;
  const { columns, side } = cells;
  const [x, y] = centreOf(cells, members[0]!);
  const mmPerPx = 1 / plane.pxPerMmAt([x, y]);
  const areaMm = members.length * (side * mmPerPx) ** 2;
  if (areaMm < MIN_SIDE_MM ** 2 || areaMm > MAX_SIDE_MM ** 2) return null;
  const own = new Set(members);
  const half = side / 2;
  const edge = members.filter((cell) => [-1, 1, -columns, columns].some((step) => !own.has(cell + step)));
  const hull = hullOf(
    edge.flatMap((cell): Point[] => {
      const [cx, cy] = centreOf(cells, cell);
      return [
        [cx - half, cy - half],
        [cx + half, cy - half],
        [cx + half, cy + half],
        [cx - half, cy + half],
      ];
    }),
  );
  const box = boxAround(hull);
  const fill = (members.length * side * side) / (box.length * box.width);
  const [lengthMm, widthMm] = [box.length * mmPerPx, box.width * mmPerPx];
  if (fill < MIN_FILL || widthMm < MIN_SIDE_MM || lengthMm > MAX_SIDE_MM || lengthMm > MAX_ASPECT * widthMm) {
    return null;
  }
  const rgb = [0, 1, 2].map((c) => members.reduce((sum, cell) => sum + cells.rgb[3 * cell + c]!, 0) / members.length);
  return {
    centre: box.centre,
    centreMm: plane.toCard(box.centre),
    sidesMm: [lengthMm, widthMm],
    rgb: rgb as unknown as Candidate['rgb'],
  };
}
