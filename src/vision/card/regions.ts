/**
 * The connected regions of a picture of ink, pixels being neighbours side by side, not corner to corner. A row is taken as
 * runs of ink, and runs that touch are joined (after Rosenfeld & Pfaltz, J. ACM 13:471, 1966).
 */

/** Run by run, in the order of their pixels, row by row. */
export interface Runs {
  readonly count: number;
  readonly row: Int32Array;
  /** Pixels from <= x < to. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** The first run of the region that it belongs to. */
  readonly first: Int32Array;
}

/** Room for the runs of one picture after another: megabytes each time would keep the garbage collector busy. */
let room = [0, 1, 2, 3].map(() => new Int32Array(0));

function roomFor(runs: number) {
  if (room[0]!.length < runs) room = room.map(() => new Int32Array(runs));
  const [row, from, to, first] = room as [Int32Array, Int32Array, Int32Array, Int32Array];
  return { row, from, to, first };
}

/** @param ink 1 where there is ink, row by row @returns runs that are good until the next picture's are asked for */
export function findRuns(ink: Uint8Array, width: number, height: number): Runs {
  const { row, from, to, first } = roomFor(height * ((width + 1) >> 1));
  let count = 0;
  let aboveEnd = 0;
  for (let y = 0; y < height; y++) {
    let above = aboveEnd;
    aboveEnd = count;
    const start = y * width;
    const end = start + width;
    for (let at = start; at < end; at++) {
      if (ink[at] === 0) continue;
      row[count] = y;
      from[count] = at - start;
      while (at < end && ink[at] === 1) at++;
      to[count] = at - start;
      first[count] = count;
      while (above < aboveEnd && to[above]! <= from[count]!) above++;
      for (let other = above; other < aboveEnd && from[other]! < to[count]!; other++) join(first, other, count);
      count++;
    }
  }
  for (let run = 0; run < count; run++) first[run] = first[first[run]!]!;
  return { count, row, from, to, first };
}

function join(first: Int32Array, one: number, other: number): void {
  const a = firstOf(first, one);
  const b = firstOf(first, other);
  if (a < b) first[b] = a;
  else first[a] = b;
}

function firstOf(first: Int32Array, run: number): number {
  let at = run;
  while (first[at] !== at) {
    // Halves the way for the next one who asks.
    first[at] = first[first[at]!]!;
    at = first[at]!;
  }
  return at;
}

/** Upright boxes of the regions and their ink, px, each at its first run; what stands at other runs is of no use. */
export interface Boxes {
  readonly left: Int32Array;
  readonly right: Int32Array;
  readonly bottom: Int32Array;
  readonly area: Int32Array;
}

export function boxesOf({ count, row, from, to, first }: Runs): Boxes {
  const left = from.slice(0, count);
  const right = to.slice(0, count);
  const bottom = new Int32Array(count);
  const area = new Int32Array(count);
  for (let run = 0; run < count; run++) {
    const region = first[run]!;
    if (from[run]! < left[region]!) left[region] = from[run]!;
    if (to[run]! > right[region]!) right[region] = to[run]!;
    bottom[region] = row[run]! + 1;
    area[region]! += to[run]! - from[run]!;
  }
  return { left, right, bottom, area };
}
