/** Placing one pad's colour on its scale. */
import { ciede2000 } from '../colour/difference.ts';
import type { Triple } from '../colour/lab.ts';
import type { ScaleCurve } from '../scale/curve.ts';
import type { OffScale } from '../measurement/measurement.ts';

export interface Stretch {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface Placement {
  readonly matched: boolean;
  /** CIEDE2000 to the nearest point of the curve. */
  readonly deltaE: number;
  readonly best: Stretch;
  /** A second stretch, apart from the first, that fits as well. */
  readonly alternative: Stretch | null;
  readonly offScale: OffScale;
  /** Colours beyond the end of the scale can't be told from the pad's either. */
  readonly openBelow: boolean;
  readonly openAbove: boolean;
  /** As given, CIEDE2000. */
  readonly sigma: number;
}

/** Steps of the search along the curve, CIEDE2000. */
const STEP = 0.25;
/** First every so many steps are looked at, then all between two of which one is near enough to matter. */
const STRIDE = 4;
/**
 * Between two places looked at, no distance is less than both by more than the way between them; twice that, as CIEDE2000
 * keeps to a metric's rules only about.
 */
const MARGIN = 2 * STRIDE * STEP;
/** How far the curve is followed beyond its ends, CIEDE2000. */
const BEYOND = 12;
/** Two-sided 90 % of the normal distribution. */
const Z90 = 1.645;
/**
 * How far beyond a scale's end a colour must lie to be told as off the scale, in its standard deviations. Over 110 simulated
 * strips on phones that turn colours by hue, 89 in 100 pads 0.7 to 1.7 steps beyond are told, and one in 77 on its scale.
 */
const OFF_SCALE_SIGMAS = 0.3;
/** A pad further than this many standard deviations from every colour of the scale doesn't belong to it. */
const MAX_SIGMAS = 4;
/** Nor does one further than this, CIEDE2000, however uncertain its colour: see the bench of hard photos. */
export const MAX_DISTANCE = 12;

/** A pad's colour as corrected towards one teaching photo, and the blocks' curve in that photo. */
export interface PadView {
  readonly lab: Triple;
  /** Colour whose distance from the curve tells whether the pad belongs there; left out: `lab`. */
  readonly seen?: Triple;
  readonly curve: ScaleCurve;
  /** How much this view counts; all of a pad's views together 1. */
  readonly weight: number;
}

/** Places a colour on one curve: see `placePad`. */
export function placeOnCurve(lab: Triple, curve: ScaleCurve, sigma: number): Placement {
  return placePad([{ lab, curve, weight: 1 }], curve, sigma);
}

/**
 * @param views one or more views of the same pad, on curves through the same blocks
 * @param curve the scale's own curve, along which the result counts
 * @param sigma standard deviation of the pad's colour, CIEDE2000, from everything that can't be told apart:
 *   scatter, correction, camera
 * @param seenSigma standard deviation of `seen`
 */
export function placePad(
  views: readonly PadView[],
  curve: ScaleCurve,
  sigma: number,
  seenSigma: number = sigma,
): Placement {
  const distanceAt = distanceOver(views, curve);
  const reach = Z90 * sigma;
  const whole = walk(distanceAt, curve, -BEYOND, reach);
  const { position, deltaE: apart } = nearestIn(distanceAt, whole);
  const deltaE = distanceOver(
    views.map(({ seen, lab, ...view }) => ({ ...view, lab: seen ?? lab })),
    curve,
  )(position);
  // There is nothing below 0: a colour that lies there is that much wrong, and says no more of what lies above 0.
  const isBelowNothing = position < 0 && startsAtNothing(curve);
  const { positionAt, distance, nearest } = isBelowNothing ? walk(distanceAt, curve, 0, reach) : whole;
  const limit = isBelowNothing ? distance[nearest]! + reach : Math.hypot(apart, reach);
  const stretches = stretchesWithin(distance, limit, nearest);
  const lowest = ({ from }: Run) => crossing(distance, positionAt, from, from - 1, limit);
  const highest = ({ to }: Run) => crossing(distance, positionAt, to, to + 1, limit);
  const toStretch = (run: Run): Stretch => ({
    value: curve.valueAt(run.at === nearest && !isBelowNothing ? position : positionAt(run.at)),
    low: curve.valueAt(lowest(run)),
    high: curve.valueAt(highest(run)),
  });
  const main = stretches.find((run) => run.at === nearest)!;
  const others = stretches
    .filter((run) => run !== main && positionAt(run.to) >= 0 && positionAt(run.from) <= curve.length)
    .sort((one, two) => distance[one.at]! - distance[two.at]!);
  return {
    matched: deltaE <= Math.min(MAX_DISTANCE, MAX_SIGMAS * seenSigma),
    deltaE,
    best: toStretch(main),
    alternative: others[0] ? toStretch(others[0]) : null,
    offScale: offScaleOf(position, curve, sigma),
    openBelow: lowest(main) < 0 && !startsAtNothing(curve),
    openAbove: highest(main) > curve.length,
    sigma,
  };
}

interface Walk {
  positionAt(i: number): number;
  /** CIEDE2000 from the colour to the curve at each step; infinite where it is too far to matter. */
  readonly distance: readonly number[];
  /** Index of the least distance. */
  readonly nearest: number;
}

/** Root mean square distance of the views from their curves, at the same place among the blocks. */
function distanceOver(views: readonly PadView[], curve: ScaleCurve): (position: number) => number {
  const only = views.length === 1 ? views[0]! : null;
  if (only?.curve === curve) return (position) => ciede2000(only.lab, curve.labAt(position));
  return (position) => {
    const block = curve.blockAt(position);
    let sum = 0;
    for (const { lab, curve: own, weight } of views) {
      sum += weight * ciede2000(lab, own.labAt(own.positionAtBlock(block))) ** 2;
    }
    return Math.sqrt(sum);
  };
}

/**
 * @param from the first position, CIEDE2000 along the curve from its first block
 * @param reach how much further than the nearest colour one still matters, CIEDE2000
 */
function walk(distanceAt: (position: number) => number, curve: ScaleCurve, from: number, reach: number): Walk {
  const length = curve.length + BEYOND - from;
  const count = Math.ceil(length / STEP);
  const positionAt = (i: number) => from + (i * length) / count;
  const distance = new Array<number>(count + 1).fill(Infinity);
  let least = Infinity;
  for (let i = 0; i < count + STRIDE; i += STRIDE) {
    const at = Math.min(i, count);
    least = Math.min(least, (distance[at] = distanceAt(positionAt(at))));
  }
  for (let i = 0; i < count; i += STRIDE) {
    const next = Math.min(i + STRIDE, count);
    if (Math.min(distance[i]!, distance[next]!) > least + reach + MARGIN) continue;
    for (let k = i + 1; k < next; k++) distance[k] = distanceAt(positionAt(k));
  }
  const nearest = distance.indexOf(Math.min(...distance));
  if (nearest < 0) throw new RangeError('the colour is not a number');
  return { positionAt, distance, nearest };
}

/** The nearest point of the curve, or of its straight ends beyond it. */
export function nearestOn(curve: ScaleCurve, lab: Triple): { position: number; deltaE: number } {
  const distanceAt = (position: number) => ciede2000(lab, curve.labAt(position));
  return nearestIn(distanceAt, walk(distanceAt, curve, -BEYOND, 0));
}

function nearestIn(distanceAt: (position: number) => number, { positionAt, distance, nearest }: Walk) {
  const last = distance.length - 1;
  return refine(distanceAt, positionAt(Math.max(0, nearest - 1)), positionAt(Math.min(last, nearest + 1)));
}

/** Off the scale where that is far likelier than a colour on it that strayed beyond the end. */
function offScaleOf(position: number, curve: ScaleCurve, sigma: number): OffScale {
  if (position > curve.length + OFF_SCALE_SIGMAS * sigma) return 'above';
  if (position < -OFF_SCALE_SIGMAS * sigma && !startsAtNothing(curve)) return 'below';
  return null;
}

/** There is nothing below 0. */
function startsAtNothing(curve: ScaleCurve): boolean {
  return curve.valueAt(0) === 0;
}

interface Run {
  readonly from: number;
  readonly to: number;
  /** Index of the least distance in the run. */
  readonly at: number;
}

function stretchesWithin(distance: readonly number[], limit: number, nearest: number): Run[] {
  const runs: Run[] = [];
  distance.forEach((here, i) => {
    if (!(here <= limit || i === nearest)) return;
    const run = runs.at(-1);
    if (run?.to !== i - 1) runs.push({ from: i, to: i, at: i });
    else runs[runs.length - 1] = { from: run.from, to: i, at: here < distance[run.at]! ? i : run.at };
  });
  return runs;
}

/** Where the distance crosses the limit between a sample inside a run and its neighbour outside. */
function crossing(
  distance: readonly number[],
  positionAt: (i: number) => number,
  inside: number,
  outside: number,
  limit: number,
): number {
  const far = distance[outside];
  if (far === undefined) return positionAt(inside);
  const near = distance[inside]!;
  const t = far > near ? Math.min(1, Math.max(0, (limit - near) / (far - near))) : 0;
  return positionAt(inside) + t * (positionAt(outside) - positionAt(inside));
}

/** Golden-section search for the least distance between two positions. */
function refine(distanceAt: (position: number) => number, from: number, to: number) {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [one, two] = [high - ratio * (high - low), low + ratio * (high - low)];
  let [atOne, atTwo] = [distanceAt(one), distanceAt(two)];
  for (let i = 0; i < 16; i++) {
    if (atOne < atTwo) {
      [high, two, atTwo] = [two, one, atOne];
      one = high - ratio * (high - low);
      atOne = distanceAt(one);
    } else {
      [low, one, atOne] = [one, two, atTwo];
      two = low + ratio * (high - low);
      atTwo = distanceAt(two);
    }
  }
  const position = (low + high) / 2;
  return { position, deltaE: distanceAt(position) };
}
