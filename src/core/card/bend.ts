/**
 * Where places on the card lie in the photo when the paper isn't quite flat and
 * the lens not quite straight: a homography, and around it a radial term in the
 * picture (the first of Brown's, 1966) and low powers of the place on the card.
 * More terms are used only if places left out of the fit are predicted better.
 */
import { factorOf, solveFactored } from '../math/cholesky.ts';
import { solveSymmetric } from '../math/least-squares.ts';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from './geometry.ts';
import type { Homography, Point } from './homography.ts';

export interface Sighting {
  /** On the card, mm. */
  readonly card: Point;
  /** In the photo, px. */
  readonly photo: Point;
  /** Standard deviation to expect in the photo, px. */
  readonly sigmaPx: number;
  /** Sightings of one group are left out together. */
  readonly group: string;
}

export type BendModel = 'flat' | 'lens' | 'bent' | 'wavy';

export interface CardMap {
  readonly model: BendModel;
  toPhoto(xMm: number, yMm: number): Point;
  /** For each sighting, how far off it would be had its group not been used, px. */
  readonly leftOutPx: readonly number[];
}

export interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/* Believed beforehand (one standard deviation), with half the card's width as unit of length: radial
   distortion of 3 % at the picture's corner; curl that moves places by 3 mm (second) and 1.5 mm (third powers). */
const LENS_SIGMA = 0.03;
const SECOND_SIGMA = 3 / 74;
const THIRD_SIGMA = 1.5 / 74;
const FREE = 1e4;

const TERMS: Record<BendModel, readonly number[]> = {
  flat: sigmas(0, 0, 0),
  lens: sigmas(1, 0, 0),
  bent: sigmas(1, 6, 0),
  wavy: sigmas(1, 6, 8),
};

/** Fewer groups than this can't judge a model. */
const MIN_GROUPS: Record<BendModel, number> = { flat: 0, lens: 6, bent: 9, wavy: 12 };

/** A model with more terms must predict better by this factor. */
const WORTH_IT = 0.9;
/** Root mean square of left-out errors over their expected size below which no further terms are tried. */
const GOOD_ENOUGH = 1;
const MAX_STEPS = 5;
/** Steps end when the largest change is smaller than this, in card units. */
const SETTLED = 1e-5;

/** @param start a homography from mm to px near the answer */
export function fitBend(sightings: readonly Sighting[], start: Homography, picture: PictureSize): CardMap {
  const groups = new Set(sightings.map((sighting) => sighting.group)).size;
  let best: { model: BendModel; fit: Fit } | null = null;
  for (const model of ['flat', 'lens', 'bent', 'wavy'] as const) {
    if (groups < MIN_GROUPS[model]) break;
    const fit = fitModel(sightings, start, picture, TERMS[model]);
    if (fit && (!best || fit.score < best.fit.score * WORTH_IT)) best = { model, fit };
    if (best && best.fit.score < GOOD_ENOUGH) break;
  }
  if (!best) throw new RangeError('the sightings determine no map');
  const { model, fit } = best;
  const predict = predictor(picture);
  const place = new Float64Array(2);
  const toPhoto = (xMm: number, yMm: number): Point => {
    predict(fit.unknowns, xMm, yMm, place);
    return [place[0]!, place[1]!];
  };
  return { model, toPhoto, leftOutPx: fit.leftOutPx };
}

interface Fit {
  readonly unknowns: Float64Array;
  readonly leftOutPx: readonly number[];
  /** Root mean square of the left-out errors over their expected size. */
  readonly score: number;
}

function sigmas(lens: number, second: number, third: number): number[] {
  return [
    ...new Array<number>(8).fill(FREE),
    ...new Array<number>(lens).fill(LENS_SIGMA),
    ...new Array<number>(second).fill(SECOND_SIGMA),
    ...new Array<number>(third).fill(THIRD_SIGMA),
  ];
}

/** Writes where a place on the card lies in the photo, x and y, px. */
type Predict = (unknowns: ArrayLike<number>, xMm: number, yMm: number, to: Float64Array) => void;

/** Unknowns: eight of the homography, then the radial term, then six second powers, then eight third powers. */
function predictor({ width, height }: PictureSize): Predict {
  const half = Math.hypot(width, height) / 2;
  return (p, xMm, yMm, to) => {
    const x0 = (xMm - CARD_WIDTH_MM / 2) / UNIT_MM;
    const y0 = (yMm - CARD_HEIGHT_MM / 2) / UNIT_MM;
    let x = x0;
    let y = y0;
    if (p.length > 9) {
      const xx = x0 * x0;
      const xy = x0 * y0;
      const yy = y0 * y0;
      x += p[9]! * xx + p[10]! * xy + p[11]! * yy;
      y += p[12]! * xx + p[13]! * xy + p[14]! * yy;
      if (p.length > 15) {
        x += p[15]! * xx * x0 + p[16]! * xx * y0 + p[17]! * yy * x0 + p[18]! * yy * y0;
        y += p[19]! * xx * x0 + p[20]! * xx * y0 + p[21]! * yy * x0 + p[22]! * yy * y0;
      }
    }
    const w = p[6]! * x + p[7]! * y + 1;
    const u = (p[0]! * x + p[1]! * y + p[2]!) / w;
    const v = (p[3]! * x + p[4]! * y + p[5]!) / w;
    const radial = 1 + (p.length > 8 ? p[8]! : 0) * (u * u + v * v);
    to[0] = width / 2 + half * u * radial;
    to[1] = height / 2 + half * v * radial;
  };
}

const UNIT_MM = CARD_WIDTH_MM / 2;

/** The same homography between card units and the picture's half diagonals from its centre. */
function normalised(h: Homography, { width, height }: PictureSize): number[] {
  const half = Math.hypot(width, height) / 2;
  const unit = UNIT_MM;
  const [cx, cy] = [CARD_WIDTH_MM / 2, CARD_HEIGHT_MM / 2];
  const fromUnits = [0, 3, 6].map((row) => [
    h[row]! * unit,
    h[row + 1]! * unit,
    h[row]! * cx + h[row + 1]! * cy + h[row + 2]!,
  ]);
  const [us, vs, ws] = fromUnits as [number[], number[], number[]];
  const scale = ws[2]!;
  return [
    ...us.map((value, i) => (value - (width / 2) * ws[i]!) / half / scale),
    ...vs.map((value, i) => (value - (height / 2) * ws[i]!) / half / scale),
    ws[0]! / scale,
    ws[1]! / scale,
  ];
}

function fitModel(
  sightings: readonly Sighting[],
  start: Homography,
  picture: PictureSize,
  priors: readonly number[],
): Fit | null {
  const predict = predictor(picture);
  const begin = normalised(start, picture);
  const unknowns = Float64Array.from(priors, (_, i) => begin[i] ?? 0);
  try {
    for (let step = 0; step < MAX_STEPS; step++) {
      const { normal, gradient } = normalEquations(rowsOf(sightings, unknowns, predict), unknowns, priors);
      const change = solveSymmetric(normal, gradient);
      change.forEach((by, i) => (unknowns[i]! += by));
      if (Math.max(...change.map(Math.abs)) < SETTLED) break;
    }
    const leftOutPx = leaveOut(sightings, unknowns, priors, predict);
    const squares = leftOutPx.reduce((sum, off, i) => sum + (off / sightings[i]!.sigmaPx) ** 2, 0);
    const score = Math.sqrt(squares / leftOutPx.length);
    return Number.isFinite(score) ? { unknowns, leftOutPx, score } : null;
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** Two rows for each sighting, x and y, in standard deviations. */
interface Rows {
  /** By each unknown, row by row. */
  readonly slopes: Float64Array;
  readonly residuals: Float64Array;
}

const STEP = 1e-5;

function rowsOf(sightings: readonly Sighting[], unknowns: Float64Array, predict: Predict): Rows {
  const n = unknowns.length;
  const slopes = new Float64Array(2 * sightings.length * n);
  const residuals = new Float64Array(2 * sightings.length);
  const [at, high, low] = [unknowns.slice(), new Float64Array(2), new Float64Array(2)];
  sightings.forEach(({ card, photo, sigmaPx }, k) => {
    predict(unknowns, card[0], card[1], low);
    residuals[2 * k] = (photo[0] - low[0]!) / sigmaPx;
    residuals[2 * k + 1] = (photo[1] - low[1]!) / sigmaPx;
    for (let i = 0; i < n; i++) {
      at[i] = unknowns[i]! + STEP;
      predict(at, card[0], card[1], high);
      at[i] = unknowns[i]! - STEP;
      predict(at, card[0], card[1], low);
      at[i] = unknowns[i]!;
      slopes[2 * k * n + i] = (high[0]! - low[0]!) / (2 * STEP) / sigmaPx;
      slopes[(2 * k + 1) * n + i] = (high[1]! - low[1]!) / (2 * STEP) / sigmaPx;
    }
  });
  return { slopes, residuals };
}

function normalEquations({ slopes, residuals }: Rows, unknowns: Float64Array, priors: readonly number[]) {
  const n = unknowns.length;
  const normal = priors.map((sigma, i) => {
    const line = new Float64Array(n);
    line[i] = sigma ** -2;
    return line;
  });
  // The homography's own unknowns are free; the others are believed to be near zero.
  const gradient = priors.map((sigma, i) => (i < 8 ? 0 : -unknowns[i]! * sigma ** -2));
  for (let row = 0; row < residuals.length; row++) {
    const start = row * n;
    for (let i = 0; i < n; i++) {
      const slope = slopes[start + i]!;
      const line = normal[i]!;
      gradient[i]! += slope * residuals[row]!;
      for (let j = 0; j <= i; j++) line[j]! += slope * slopes[start + j]!;
    }
  }
  for (let i = 0; i < n; i++) for (let j = i + 1; j < n; j++) normal[i]![j] = normal[j]![i]!;
  return { normal, gradient };
}

/** Errors of the sightings of each group under the fit without that group, to first order: (I - H)^-1 r. */
function leaveOut(
  sightings: readonly Sighting[],
  unknowns: Float64Array,
  priors: readonly number[],
  predict: Predict,
): number[] {
  const rows = rowsOf(sightings, unknowns, predict);
  const factor = factorOf(normalEquations(rows, unknowns, priors).normal);
  const n = unknowns.length;
  const errors = new Array<number>(sightings.length).fill(0);
  for (const group of new Set(sightings.map((sighting) => sighting.group))) {
    const members = sightings.flatMap((sighting, i) => (sighting.group === group ? [i] : []));
    const own = members.flatMap((i) => [2 * i, 2 * i + 1]);
    const slopes = own.map((row) => [...rows.slopes.subarray(row * n, (row + 1) * n)]);
    const reach = slopes.map((slope) => solveFactored(factor, slope));
    const rest = slopes.map((slope, i) =>
      reach.map((other, j) => (i === j ? 1 + 1e-9 : 0) - slope.reduce((sum, one, k) => sum + one * other[k]!, 0)),
    );
    const left = solveSymmetric(
      rest,
      own.map((row) => rows.residuals[row]!),
    );
    members.forEach((i, k) => {
      errors[i] = Math.hypot(left[2 * k]!, left[2 * k + 1]!) * sightings[i]!.sigmaPx;
    });
  }
  return errors;
}
