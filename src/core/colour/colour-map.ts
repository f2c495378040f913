/**
 * From this photo's colours to those of another photo of the same printed card.
 *
 * Both photos have been corrected by their greys; what is left is how camera, light and the phone's own rendering see
 * colours. The printed patches are the same in both photos, so their true colours need not be known. What a phone does
 * to colours is smooth but follows no matrix: the change is a Gaussian process (C. E. Rasmussen, C. K. I. Williams,
 * Gaussian Processes for Machine Learning, 2006, chapter 2), the sum of a small change of the 3x3 matrix and a smooth
 * local one. So it also says how sure it is of a colour: less, the farther from all patches.
 */
import { factorOf, solveFactored, whiten, type Factor } from '../math/cholesky.ts';
import type { Pair } from './anchors.ts';
import { expand, linearToCompressed } from './compressed.ts';
import { ciede2000 } from './difference.ts';
import { labToLinear, linearToLab, type Triple } from './lab.ts';

/*
 * Constants: chosen on 30 real photos of a chart (`npm run real`) and 150 pairs of simulated phones together, leaving
 * one patch out in turn; over length 25 to 60 the mean error on either changes by less than 6 %.
 */
/** Distance over which local changes stay alike, compressed CIELAB; lightness counts for less. */
const LENGTH = 35;
const LIGHTNESS_SHARE = 0.8;
/** Size of the local change, CIEDE2000. */
const LOCAL_SIGMA = 2.5;
/** Size of the matrix's change: of each factor. */
const MATRIX_SIGMA = 0.05;
/** What no smooth map follows, for one patch, CIEDE2000. */
const PATCH_SIGMA = 1;

/** How far the same patch of two prints is apart for itself, CIEDE2000; seen in simulated home printers only. */
export const OTHER_PRINT_SIGMA = 3;

export interface ColourMap {
  apply(linear: Triple): Triple;
  /**
   * Covariance of what the map leaves in these colours, compressed CIELAB: three rows and columns for each colour, in their
   * order. Colours near one another err alike.
   */
  covarianceOf(linears: readonly Triple[]): number[][];
  /** Root mean square CIEDE2000 of the anchors, each left out of the fit in turn; infinite without anchors. */
  readonly residual: number;
  /** The same without any map. */
  readonly residualWithout: number;
}

/** A colour as the covariances need it. */
interface Place {
  readonly linear: Triple;
  readonly at: Triple;
  /** Change of `at` with each channel of `linear`. */
  readonly slopes: readonly [Triple, Triple, Triple];
}

/**
 * @param anchors colour patches seen in both photos: the map is judged by them
 * @param neutrals greys seen in both
 * @param anchorSigma how far a colour patch may be off for itself, CIEDE2000: more where they are another print's
 */
export function fitColourMap(
  anchors: readonly Pair[],
  neutrals: readonly Pair[],
  anchorSigma: number = PATCH_SIGMA,
): ColourMap {
  const pairs = [...anchors, ...neutrals];
  const places = pairs.map(({ from }) => placeOf(from));
  const variances = pairs.map((_, i) => (i < anchors.length ? anchorSigma : PATCH_SIGMA) ** 2);
  const factor = factorOf(covarianceBetween(places, places, variances));
  const change = pairs.flatMap(({ to }, i) => less(linearToCompressed(to), places[i]!.at));
  const weights = solveFactored(factor, change);
  const apply = (linear: Triple): Triple => {
    const here = placeOf(linear);
    const rows = covarianceBetween([here], places);
    const moved = here.at.map((value, c) => value + dot(rows[c]!, weights)) as unknown as Triple;
    return labToLinear(expand(moved));
  };
  return {
    apply,
    covarianceOf: (linears) => posterior(linears.map(placeOf), places, factor),
    get residual() {
      return rootMeanSquare(leftOut(factor, weights, change, places, pairs, anchors.length));
    },
    residualWithout: rootMeanSquare(anchors.map(({ from, to }) => ciede2000(linearToLab(from), linearToLab(to)))),
  };
}

/** Error of each of the first `count` pairs under a map without it: Rasmussen & Williams, equation 5.12, for triples. */
function leftOut(
  factor: Factor,
  weights: readonly number[],
  change: readonly number[],
  places: readonly Place[],
  pairs: readonly Pair[],
  count: number,
): number[] {
  // Of the inverse covariance only the blocks on its diagonal are needed.
  const whitened = (i: number) =>
    whiten(
      factor,
      change.map((_, k) => (k === i ? 1 : 0)),
    );
  return places.slice(0, count).map(({ at }, i) => {
    const columns = [0, 1, 2].map((c) => whitened(3 * i + c));
    const own = columns.map((one) => columns.map((other) => dot(one, other)));
    const off = solveFactored(factorOf(own), weights.slice(3 * i, 3 * i + 3));
    const found = at.map((value, c) => value + change[3 * i + c]! - off[c]!) as unknown as Triple;
    return ciede2000(expand(found), linearToLab(pairs[i]!.to));
  });
}

function placeOf(linear: Triple): Place {
  const at = linearToCompressed(linear);
  const slope = (channel: 0 | 1 | 2): Triple => {
    const step = 1e-3 * Math.max(0.02, linear[channel]);
    const moved = linear.map((value, c) => (c === channel ? value + step : value)) as unknown as Triple;
    return less(linearToCompressed(moved), at).map((value) => value / step) as unknown as Triple;
  };
  return { linear, at, slopes: [slope(0), slope(1), slope(2)] };
}

/** Prior covariance, three rows and columns a place; `ownVariances` come on top where `some` are `others`. */
function covarianceBetween(
  some: readonly Place[],
  others: readonly Place[],
  ownVariances: readonly number[] | null = null,
): number[][] {
  const rows: number[][] = [];
  for (const [i, one] of some.entries()) {
    const block: [number[], number[], number[]] = [[], [], []];
    for (const other of others) {
      const local = localBetween(one.at, other.at);
      const matrix = MATRIX_SIGMA ** 2 * dot(one.linear, other.linear);
      for (let r = 0; r < 3; r++) {
        for (let c = 0; c < 3; c++) {
          let sum = 0;
          for (let k = 0; k < 3; k++) sum += one.slopes[k]![r]! * other.slopes[k]![c]!;
          block[r]!.push(matrix * sum + (r === c ? local + (one === other ? (ownVariances?.[i] ?? 0) : 0) : 0));
        }
      }
    }
    rows.push(...block);
  }
  return rows;
}

function localBetween(one: Triple, other: Triple): number {
  const squared = (LIGHTNESS_SHARE * (one[0] - other[0])) ** 2 + (one[1] - other[1]) ** 2 + (one[2] - other[2]) ** 2;
  return LOCAL_SIGMA ** 2 * Math.exp(-squared / (2 * LENGTH * LENGTH));
}

function posterior(places: readonly Place[], known: readonly Place[], factor: Factor): number[][] {
  const prior = covarianceBetween(places, places);
  const told = covarianceBetween(places, known).map((row) => whiten(factor, row));
  return prior.map((row, i) => row.map((value, j) => value - dot(told[i]!, told[j]!)));
}

function less(one: Triple, other: Triple): Triple {
  return [one[0] - other[0], one[1] - other[1], one[2] - other[2]];
}

function dot(one: readonly number[], other: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += one[i]! * other[i]!;
  return sum;
}

function rootMeanSquare(values: readonly number[]): number {
  if (values.length === 0) return Number.POSITIVE_INFINITY;
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}
