/** The outer boundaries of connected dark regions that could be fiducials by their size. */
import type { Cv, Keep, Mat } from '../engine/opencv.ts';

/** Boundary pixels in order around one region, as x, y, x, y...; pixel (i, j) by its indices. */
export type Outline = Int32Array;

const MIN_SIDE_PX = 11;
/** The largest fiducial, as a share of the picture's long side: a card filling it all, seen tilted. */
const MAX_SIDE = 0.24;
const MAX_ASPECT = 4;
/** Share of its upright box that a fiducial's ink fills: it may stand on a corner, and be hollow. */
const MIN_FILL = 0.12;
/** Fields of a row of `connectedComponentsWithStats`. */
const STATS = 5;

export function findOutlines(cv: Cv, keep: Keep, ink: Mat): Outline[] {
  const labels = keep(new cv.Mat());
  const stats = keep(new cv.Mat());
  const count = cv.connectedComponentsWithStats(ink, labels, stats, keep(new cv.Mat()), 4, cv.CV_32S);
  const rows = stats.data32S;
  const image = { labels: labels.data32S, width: labels.cols, height: labels.rows };
  const outlines: Outline[] = [];
  for (let label = 1; label < count; label++) {
    const [left, top, width, height, area] = rows.subarray(label * STATS, (label + 1) * STATS) as unknown as Box;
    if (!couldBeFiducial(left, top, width, height, area, image)) continue;
    outlines.push(trace(image, label, left, top, 8 * (width + height)));
  }
  return outlines;
}

type Box = [number, number, number, number, number];

interface LabelImage {
  readonly labels: Int32Array;
  readonly width: number;
  readonly height: number;
}

function couldBeFiducial(
  left: number,
  top: number,
  width: number,
  height: number,
  area: number,
  image: LabelImage,
): boolean {
  const short = Math.min(width, height);
  const long = Math.max(width, height);
  if (short < MIN_SIDE_PX || long > MAX_SIDE * Math.max(image.width, image.height)) return false;
  if (long > MAX_ASPECT * short || area < MIN_FILL * width * height) return false;
  return left > 0 && top > 0 && left + width < image.width && top + height < image.height;
}

/* Clockwise from the right, y down. */
const DX = [1, 1, 0, -1, -1, -1, 0, 1];
const DY = [0, 1, 1, 1, 0, -1, -1, -1];

/** Moore's neighbour tracing; the region doesn't touch the picture's border. */
function trace({ labels, width }: LabelImage, label: number, left: number, top: number, most: number): Outline {
  const steps = DX.map((dx, i) => dx + DY[i]! * width);
  let start = top * width + left;
  while (labels[start] !== label) start++;
  const points: number[] = [];
  let at = start;
  // The first pixel was reached from the left: look clockwise from there.
  let from = 4;
  do {
    points.push(at % width, Math.floor(at / width));
    let turned = 1;
    while (turned <= 8 && labels[at + steps[(from + turned) % 8]!] !== label) turned++;
    if (turned > 8) break;
    const direction = (from + turned) % 8;
    at += steps[direction]!;
    // Look next from the pixel before the one just stepped to.
    from = (direction + (direction % 2 === 0 ? 6 : 5)) % 8;
  } while (at !== start && points.length < 2 * most);
  return Int32Array.from(points);
}
