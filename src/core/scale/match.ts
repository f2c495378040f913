/** Which pad of a strip, or which row in another photo, belongs to which row of a chart, by colour. */
import { ciede2000 } from '../colour/difference.ts';
import type { Triple } from '../colour/lab.ts';

/** A pad further than this from every colour of its row, CIEDE2000, doesn't speak for any order. */
const MAX_APART = 14;
/** An order must fit this much better than the chart's own, either way round. */
const CLEARLY = 0.7;
const STEPS = 6;

/**
 * Matches pads to rows, as many of the one as of the other.
 * @returns for each pad its row; null when the colours don't clearly call for an order
 */
export function matchPads(pads: readonly Triple[], rows: readonly (readonly Triple[])[]): number[] | null {
  if (pads.length !== rows.length || pads.length === 0) return null;
  const cost = pads.map((pad) => rows.map((row) => distanceTo(pad, row)));
  const best = cheapest(cost);
  const total = (order: readonly number[]) => order.reduce((sum, row, pad) => sum + cost[pad]![row]!, 0);
  const straight = pads.map((_, i) => i);
  const plain = [straight, straight.toReversed()];
  if (best.some((row, pad) => cost[pad]![row]! > MAX_APART)) return null;
  const rivals = plain.filter((order) => order.some((row, pad) => row !== best[pad]));
  return rivals.every((order) => total(best) < CLEARLY * total(order)) ? best : null;
}

/** CIEDE2000 from a colour to the nearest point of the straight pieces between a row's blocks. */
function distanceTo(colour: Triple, row: readonly Triple[]): number {
  let least = Infinity;
  row.forEach((from, i) => {
    const to = row[i + 1] ?? from;
    for (let step = 0; step < STEPS; step++) {
      const t = step / STEPS;
      const between = from.map((value, k) => value + t * (to[k]! - value)) as unknown as Triple;
      least = Math.min(least, ciede2000(colour, between));
    }
  });
  return least;
}

/** The assignment of least total cost, over subsets of the columns: rows are at most a dozen. */
function cheapest(cost: readonly (readonly number[])[]): number[] {
  const n = cost.length;
  const least = new Float64Array(1 << n).fill(Infinity);
  const last = new Int8Array(1 << n);
  least[0] = 0;
  for (let taken = 0; taken < 1 << n; taken++) {
    const pad = countBits(taken);
    for (let row = 0; row < n; row++) {
      if (taken & (1 << row)) continue;
      const next = taken | (1 << row);
      const sum = least[taken]! + cost[pad]![row]!;
      if (sum < least[next]!) {
        least[next] = sum;
        last[next] = row;
      }
    }
  }
  const order = new Array<number>(n);
  for (let taken = (1 << n) - 1, pad = n - 1; pad >= 0; pad--) {
    order[pad] = last[taken]!;
    taken &= ~(1 << last[taken]!);
  }
  return order;
}

function countBits(mask: number): number {
  let count = 0;
  for (let rest = mask; rest; rest &= rest - 1) count++;
  return count;
}

export interface RowMatch {
  /** Of the known rows. */
  readonly known: number;
  /** The blocks run the other way. */
  readonly reversed: boolean;
}

/** Mean CIEDE2000 between the blocks of a row and those it is taken for, at most. */
const MAX_ROW_DIFFERENCE = 16;

/**
 * The rows of a chart in a new photo against those it is known by.
 * @returns for each row what it is, or null where nothing known has as many blocks of like colours
 */
export function matchRows(
  rows: readonly (readonly Triple[])[],
  known: readonly (readonly Triple[])[],
): (RowMatch | null)[] {
  const candidates = rows.flatMap((row, i) =>
    known.flatMap((other, k) =>
      row.length !== other.length
        ? []
        : [false, true].map((reversed) => ({ row: i, known: k, reversed, off: meanDifference(row, other, reversed) })),
    ),
  );
  const found = new Array<RowMatch | null>(rows.length).fill(null);
  const taken = new Set<number>();
  for (const { row, known: k, reversed, off } of candidates.sort((one, other) => one.off - other.off)) {
    if (off > MAX_ROW_DIFFERENCE || found[row] || taken.has(k)) continue;
    found[row] = { known: k, reversed };
    taken.add(k);
  }
  return found;
}

function meanDifference(row: readonly Triple[], other: readonly Triple[], reversed: boolean): number {
  const order = reversed ? other.toReversed() : other;
  return row.reduce((sum, lab, i) => sum + ciede2000(lab, order[i]!), 0) / row.length;
}
