/** The uniform area about a place: grown over cells of one colour until its edges are steps all round. */
import { type Cells, stepBetween } from './cells.ts';

export interface Region {
  /** Cells in it, holes not filled. */
  readonly cells: readonly number[];
  /** Of all cells: 1 in the region. */
  readonly mask: Uint8Array;
  /** It runs to the border of the part of the photo that was looked at. */
  readonly atBorder: boolean;
}

/**
 * @param cells smoothed a little
 * @param most largest difference of a channel from the region's mean, levels
 */
export function growRegion(cells: Cells, seed: number, most: number): Region {
  const { columns, rows, rgb } = cells;
  const mask = new Uint8Array(columns * rows);
  const mean = [rgb[3 * seed]!, rgb[3 * seed + 1]!, rgb[3 * seed + 2]!];
  const found = [seed];
  let atBorder = false;
  mask[seed] = 1;
  // Grows while it is gone through.
  for (const cell of found) {
    const column = cell % columns;
    const row = Math.floor(cell / columns);
    if (column === 0 || row === 0 || column === columns - 1 || row === rows - 1) {
      atBorder = true;
      continue;
    }
    for (const other of [cell - 1, cell + 1, cell - columns, cell + columns]) {
      if (mask[other] || mean.some((value, c) => Math.abs(rgb[3 * other + c]! - value) > most)) continue;
      mask[other] = 1;
      found.push(other);
      // The first hundred cells settle the mean; after that shading may not carry it off.
      if (found.length <= 100)
        mean.forEach((value, c) => (mean[c] = value + (rgb[3 * other + c]! - value) / found.length));
    }
  }
  return { cells: found, mask, atBorder };
}

/** Share of the region's border across which the colour changes by a step rather than gently. */
export function edgeShare(cells: Cells, { cells: members, mask }: Region, reach: number, minStep: number): number {
  const { columns, rows } = cells;
  let [edges, steps] = [0, 0];
  for (const cell of members) {
    for (const side of [-1, 1, -columns, columns]) {
      if (mask[cell + side]) continue;
      const [inner, outer] = [cell - side * reach, cell + side * reach];
      if (outer < 0 || outer >= columns * rows || inner < 0 || inner >= columns * rows) continue;
      edges++;
      if (stepBetween(cells, inner, outer) >= minStep) steps++;
    }
  }
  return edges === 0 ? 0 : steps / edges;
}

/** For each cell of a region, how many cells it is from the nearest outside; what it encloses counts as inside. */
export function depths(cells: Cells, { mask }: Region): Uint16Array {
  return distances(cells, withHolesFilled(cells, mask));
}

/** For each cell outside a region, how many cells it is from the nearest inside. */
export function distancesFrom(cells: Cells, { mask }: Region): Uint16Array {
  return distances(
    cells,
    mask.map((value) => 1 - value),
  );
}

/** City-block distance of each marked cell from the nearest that isn't. */
function distances({ columns, rows }: Cells, marked: Uint8Array): Uint16Array {
  const far = columns + rows;
  const distance = new Uint16Array(columns * rows);
  const step = (i: number, one: number, other: number) => {
    if (!marked[i]) return;
    distance[i] = Math.min(distance[i] || far, (distance[one] ?? far) + 1, (distance[other] ?? far) + 1);
  };
  for (let i = 0; i < distance.length; i++) step(i, i % columns > 0 ? i - 1 : -1, i - columns);
  for (let i = distance.length - 1; i >= 0; i--) step(i, i % columns < columns - 1 ? i + 1 : -1, i + columns);
  return distance;
}

/** Specks, and values printed inside a block, are holes: cells from which no way leads to the border. */
function withHolesFilled({ columns, rows }: Cells, mask: Uint8Array): Uint8Array {
  const outside = new Uint8Array(columns * rows);
  const queue: number[] = [];
  const visit = (cell: number) => {
    if (mask[cell] || outside[cell]) return;
    outside[cell] = 1;
    queue.push(cell);
  };
  for (let column = 0; column < columns; column++) {
    visit(column);
    visit((rows - 1) * columns + column);
  }
  for (let row = 0; row < rows; row++) {
    visit(row * columns);
    visit(row * columns + columns - 1);
  }
  // Grows while it is gone through.
  for (const cell of queue) {
    const column = cell % columns;
    if (column > 0) visit(cell - 1);
    if (column < columns - 1) visit(cell + 1);
    if (cell >= columns) visit(cell - columns);
    if (cell < (rows - 1) * columns) visit(cell + columns);
  }
  return outside.map((value) => 1 - value);
}
