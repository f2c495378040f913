/** From a tap on a printed block to its colour: the uniform area under the tap, in the photo's own pixels. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../core/card/geometry.ts';
import type { Point } from '../../core/card/homography.ts';
import type { PatchSample } from '../../core/samples.ts';
import { asWords } from '../card/grey.ts';
import { colourOf } from '../colour-of.ts';
import { isInside, type Pixels } from '../pixels.ts';
import { cellAt, type Cells, cellsOf, centreOf, smoothed, stepBetween } from './cells.ts';
import type { Plane } from './plane.ts';
import { depths, distancesFrom, edgeShare, growRegion, type Region } from './region.ts';
import { boxAround, hullOf } from './shape.ts';

export interface BlockFound {
  readonly sample: PatchSample;
  /** Middle and outline in the photo, px. */
  readonly centre: Point;
  readonly outline: readonly Point[];
  /** On the card's plane, the longer side first. */
  readonly sidesMm: readonly [number, number];
  /** What the block is printed on, beside it; null where its edges weren't found. */
  readonly label: PatchSample | null;
  /** The block's own edges were found; else a small disc about the tap stands for it. */
  readonly snapped: boolean;
}

export type BlockSearch =
  | { readonly block: BlockFound; readonly reason: null }
  | { readonly block: null; readonly reason: 'off-photo' | 'on-card' };

const REACH_MM = 18;
/** A seed better placed than the tap is looked for this far off. */
const SNAP_MM = 2;
/** The seed's colour should go on this far to all sides. */
const CALM_MM = 1;
const CELLS_PER_MM = 4;
/** Largest differences from a region's mean that are tried in turn, levels. */
const TOLERANCES = [2, 3, 4, 5.5, 7.5, 10] as const;
const MIN_SIDE_MM = 2.5;
const MAX_SIDE_MM = 30;
const MAX_ASPECT = 5;
const MIN_FILL = 0.75;
const MIN_EDGE_SHARE = 0.8;
/** Change of colour, levels, from 0.8 mm inside an edge to as far outside, that is a step and not shading. */
const MIN_STEP = 2.5;
const EDGE_MM = 0.8;
/** Left out along the edges: blur, and colour that JPEG smears; but never more than this share of the block. */
const INSET_MM = 0.8;
const MAX_INSET = 0.4;
const DISC_MM = 1.5;
/** Label is looked for at these distances from a block's edge. */
const RING_MM = [0.9, 2.2] as const;

/** @param tap in the photo, px */
export function sampleBlock(photo: Pixels, plane: Plane, tap: Point, id: string): BlockSearch {
  if (!isInside(photo, tap)) return { block: null, reason: 'off-photo' };
  if (isOnCard(plane.toCard(tap))) return { block: null, reason: 'on-card' };
  const pxPerMm = plane.pxPerMmAt(tap);
  const reach = REACH_MM * pxPerMm;
  const area = { left: tap[0] - reach, top: tap[1] - reach, right: tap[0] + reach, bottom: tap[1] + reach };
  const cells = smoothed(cellsOf(photo, area, Math.max(1, Math.floor(pxPerMm / CELLS_PER_MM))));
  const perMm = pxPerMm / cells.side;
  const seed = calmestNear(cells, tap, perMm);
  const region = uniformAbout(cells, seed, perMm);
  const block = region && fromRegion(photo, plane, cells, region, perMm, id);
  return { block: block ?? discAbout(photo, plane, seed < 0 ? tap : centreOf(cells, seed), pxPerMm, id), reason: null };
}

function isOnCard([xMm, yMm]: Point): boolean {
  return xMm > 0 && yMm > 0 && xMm < CARD_WIDTH_MM && yMm < CARD_HEIGHT_MM;
}

/** @param perMm cells to a millimetre */
function uniformAbout(cells: Cells, seed: number, perMm: number): Region | null {
  if (seed < 0) return null;
  const reach = Math.max(1, Math.round(EDGE_MM * perMm));
  for (const most of TOLERANCES) {
    const region = growRegion(cells, seed, most);
    if (region.atBorder || !looksLikeBlock(cells, region, perMm)) continue;
    if (edgeShare(cells, region, reach, MIN_STEP) >= MIN_EDGE_SHARE) return region;
  }
  return null;
}

/** The cell near the tap whose surroundings differ least from it. */
function calmestNear(cells: Cells, tap: Point, perMm: number): number {
  const around = Math.max(1, Math.round(CALM_MM * perMm));
  const down = around * cells.columns;
  const steps = [-around, around, -down, down, -around - down, around - down, down - around, down + around];
  const reach = Math.round(SNAP_MM * perMm);
  let best = -1;
  let least = Infinity;
  for (let dy = -reach; dy <= reach; dy++) {
    for (let dx = -reach; dx <= reach; dx++) {
      const off = Math.hypot(dx, dy);
      const cell = cellAt(cells, [tap[0] + dx * cells.side, tap[1] + dy * cells.side]);
      if (cell < 0 || off > reach) continue;
      const unrest = Math.max(
        ...steps.map((step) =>
          cells.rgb[3 * (cell + step)] === undefined ? 255 : stepBetween(cells, cell, cell + step),
        ),
      );
      const cost = Math.max(1, unrest) * (1 + off / reach);
      if (cost < least) [best, least] = [cell, cost];
    }
  }
  return best;
}

function looksLikeBlock(cells: Cells, region: Region, perMm: number): boolean {
  const most = (MAX_SIDE_MM * perMm) ** 2;
  if (region.cells.length < (MIN_SIDE_MM * perMm) ** 2 || region.cells.length > most) return false;
  const { length, width } = boxAround(outlineOf(cells, region));
  const [lengthMm, widthMm] = [length / cells.side / perMm, width / cells.side / perMm];
  const fill = (region.cells.length * cells.side ** 2) / (length * width);
  return widthMm >= MIN_SIDE_MM && lengthMm <= MAX_SIDE_MM && lengthMm <= MAX_ASPECT * widthMm && fill >= MIN_FILL;
}

/** Hull of the region in the photo, px. */
function outlineOf(cells: Cells, region: Region): Point[] {
  const half = cells.side / 2;
  const edge = region.cells.filter((cell) =>
    [-1, 1, -cells.columns, cells.columns].some((step) => !region.mask[cell + step]),
  );
  const corners = edge.flatMap((cell): Point[] => {
    const [x, y] = centreOf(cells, cell);
    return [
      [x - half, y - half],
      [x + half, y - half],
      [x + half, y + half],
      [x - half, y + half],
    ];
  });
  return hullOf(corners);
}

function fromRegion(
  photo: Pixels,
  plane: Plane,
  cells: Cells,
  region: Region,
  perMm: number,
  id: string,
): BlockFound | null {
  const depth = depths(cells, region);
  const deepest = depth.reduce((most, value) => Math.max(most, value), 0);
  const inset = Math.min(INSET_MM * perMm, MAX_INSET * deepest);
  const inner: number[] = [];
  depth.forEach((value, cell) => {
    if (value > inset) inner.push(cell);
  });
  const colour = colourOf(pixelsOf(photo, cells, inner));
  if (!colour) return null;
  const outline = outlineOf(cells, region);
  const { centre, length, width } = boxAround(outline);
  const [xMm, yMm] = plane.toCard(centre);
  const pxPerMm = perMm * cells.side;
  return {
    sample: { id, xMm, yMm, ...colour },
    centre,
    outline,
    sidesMm: [length / pxPerMm, width / pxPerMm],
    label: labelBeside(photo, plane, cells, region, perMm),
    snapped: true,
  };
}

/** The ring about a block: mostly label, even where a printed value or the next block reaches into it. */
function labelBeside(photo: Pixels, plane: Plane, cells: Cells, region: Region, perMm: number): PatchSample | null {
  const members: number[] = [];
  distancesFrom(cells, region).forEach((distance, cell) => {
    if (distance > RING_MM[0] * perMm && distance <= RING_MM[1] * perMm) members.push(cell);
  });
  const colour = colourOf(pixelsOf(photo, cells, members));
  if (!colour) return null;
  const [xMm, yMm] = plane.toCard(centreOf(cells, region.cells[0]!));
  return { id: 'label', xMm, yMm, ...colour };
}

/** RGBA, a number a pixel. */
function pixelsOf(photo: Pixels, cells: Cells, members: readonly number[]): Int32Array {
  const { side, columns, x0, y0 } = cells;
  const from = asWords(photo.data);
  const words = new Int32Array(members.length * side * side);
  let to = 0;
  for (const cell of members) {
    const left = x0 + (cell % columns) * side;
    const top = y0 + Math.floor(cell / columns) * side;
    for (let y = top; y < top + side; y++, to += side) {
      words.set(from.subarray(y * photo.width + left, y * photo.width + left + side), to);
    }
  }
  return words;
}

/** What lies about the tap itself, where no edges tell how far it goes. */
function discAbout(photo: Pixels, plane: Plane, tap: Point, pxPerMm: number, id: string): BlockFound {
  const radius = Math.max(3, DISC_MM * pxPerMm);
  const from = asWords(photo.data);
  const words = new Int32Array(Math.ceil(2 * radius + 1) ** 2);
  let to = 0;
  for (let y = Math.max(0, Math.floor(tap[1] - radius)); y < Math.min(photo.height, tap[1] + radius); y++) {
    for (let x = Math.max(0, Math.floor(tap[0] - radius)); x < Math.min(photo.width, tap[0] + radius); x++) {
      if (Math.hypot(x + 0.5 - tap[0], y + 0.5 - tap[1]) < radius) words[to++] = from[y * photo.width + x]!;
    }
  }
  const colour = colourOf(words.subarray(0, to));
  if (!colour) throw new RangeError('the photo is too small about the tap');
  const [xMm, yMm] = plane.toCard(tap);
  const outline = Array.from({ length: 16 }, (_, i): Point => {
    const angle = (i * Math.PI) / 8;
    return [tap[0] + radius * Math.cos(angle), tap[1] + radius * Math.sin(angle)];
  });
  const across = (2 * radius) / pxPerMm;
  return {
    sample: { id, xMm, yMm, ...colour },
    centre: tap,
    outline,
    sidesMm: [across, across],
    label: null,
    snapped: false,
  };
}
