/** The outer boundaries of connected dark regions that could be fiducials by their size. */
import { type Boxes, boxesOf, findRuns } from './regions.ts';

/** Boundary pixels in order around one region, as x, y, x, y...; pixel (i, j) by its indices. */
export type Outline = Int32Array;

const MIN_SIDE_PX = 11;
/** The largest fiducial, as a share of the picture's long side: a card filling it all, seen tilted. */
const MAX_SIDE = 0.24;
const MAX_ASPECT = 4;
/** Share of its upright box that a fiducial's ink fills: it may stand on a corner, and be hollow. */
const MIN_FILL = 0.12;

/** Which region a pixel belongs to, counted from 1, of those that matter; all 0 in between, and used again and again. */
let labels = new Int32Array(0);

interface Picture {
  readonly width: number;
  readonly height: number;
}

/** @param ink 1 where there is ink, row by row @returns in the order of their first pixels */
export function findOutlines(ink: Uint8Array, { width, height }: Picture): Outline[] {
  const { count, row, from, to, first } = findRuns(ink, width, height);
  const boxes = boxesOf({ count, row, from, to, first });
  if (labels.length < ink.length) labels = new Int32Array(ink.length);
  const isWanted = new Uint8Array(count);
  const starts: { readonly at: number; readonly label: number; readonly most: number }[] = [];
  const mark = (run: number, label: number) => {
    const start = row[run]! * width;
    labels.fill(label, start + from[run]!, start + to[run]!);
  };
  for (let run = 0; run < count; run++) {
    const region = first[run]!;
    if (region === run && couldBeFiducial(boxes, run, row[run]!, { width, height })) {
      isWanted[run] = 1;
      const sides = boxes.right[run]! - boxes.left[run]! + boxes.bottom[run]! - row[run]!;
      starts.push({ at: row[run]! * width + from[run]!, label: run + 1, most: 8 * sides });
    }
    if (isWanted[region] === 1) mark(run, region + 1);
  }
  const outlines = starts.map(({ at, label, most }) => trace(labels, width, label, at, most));
  for (let run = 0; run < count; run++) if (isWanted[first[run]!] === 1) mark(run, 0);
  return outlines;
}

function couldBeFiducial(boxes: Boxes, region: number, top: number, image: Picture): boolean {
  const left = boxes.left[region]!;
  const width = boxes.right[region]! - left;
  const height = boxes.bottom[region]! - top;
  const short = Math.min(width, height);
  const long = Math.max(width, height);
  if (short < MIN_SIDE_PX || long > MAX_SIDE * Math.max(image.width, image.height)) return false;
  if (long > MAX_ASPECT * short || boxes.area[region]! < MIN_FILL * width * height) return false;
  return left > 0 && top > 0 && left + width < image.width && top + height < image.height;
}

/* Clockwise from the right, y down. */
const DX = [1, 1, 0, -1, -1, -1, 0, 1];
const DY = [0, 1, 1, 1, 0, -1, -1, -1];

/** Moore's neighbour tracing from a region's first pixel; it doesn't touch the picture's border. */
function trace(image: Int32Array, width: number, label: number, start: number, most: number): Outline {
  const steps = DX.map((dx, i) => dx + DY[i]! * width);
  const points: number[] = [];
  let at = start;
  // The first pixel was reached from the left: look clockwise from there.
  let from = 4;
  do {
    points.push(at % width, Math.floor(at / width));
    let turned = 1;
    while (turned <= 8 && image[at + steps[(from + turned) % 8]!] !== label) turned++;
    if (turned > 8) break;
    const direction = (from + turned) % 8;
    at += steps[direction]!;
    // Look next from the pixel before the one just stepped to.
    from = (direction + (direction % 2 === 0 ? 6 : 5)) % 8;
  } while (at !== start && points.length < 2 * most);
  return Int32Array.from(points);
}
