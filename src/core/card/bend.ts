/**
 * Where places on the card lie in the photo when the paper isn't quite flat and
 * the lens not quite straight: a homography, and around it a radial term in the
 * picture (the first of Brown's, 1966) and low powers of the place on the card.
 * More terms are used only if places left out of the fit are predicted better.
 */
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
  return { model, toPhoto: (xMm, yMm) => predict(fit.unknowns, xMm, yMm), leftOutPx: fit.leftOutPx };
}

interface Fit {
  readonly unknowns: readonly number[];
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

type Predict = (unknowns: readonly number[], xMm: number, yMm: number) => Point;

/** Unknowns: eight of the homography, then the radial term, then six second powers, then eight third powers. */
function predictor({ width, height }: PictureSize): Predict {
  const half = Math.hypot(width, height) / 2;
  return (p, xMm, yMm) => {
    const [x0, y0] = cardUnits(xMm, yMm);
    let x = x0;
    let y = y0;
    if (p.length > 9) {
      const [xx, xy, yy] = [x0 * x0, x0 * y0, y0 * y0];
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
    const radial = 1 + (p[8] ?? 0) * (u * u + v * v);
    return [width / 2 + half * u * radial, height / 2 + half * v * radial];
  };
}

function cardUnits(xMm: number, yMm: number): Point {
  const unit = CARD_WIDTH_MM / 2;
  return [(xMm - CARD_WIDTH_MM / 2) / unit, (yMm - CARD_HEIGHT_MM / 2) / unit];
}

/** The same homography between card units and the picture's half diagonals from its centre. */
function normalised(h: Homography, { width, height }: PictureSize): number[] {
  const half = Math.hypot(width, height) / 2;
  const unit = CARD_WIDTH_MM / 2;
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
  let unknowns = priors.map((_, i) => begin[i] ?? 0);
  try {
    for (let step = 0; step < MAX_STEPS; step++) {
      const { normal, gradient } = normalEquations(sightings, unknowns, priors, predict);
      const change = solveSymmetric(normal, gradient);
      unknowns = unknowns.map((value, i) => value + change[i]!);
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

interface Row {
  readonly slopes: readonly number[];
  readonly residual: number;
}

/** Two rows for each sighting, in standard deviations. */
function rowsOf(sightings: readonly Sighting[], unknowns: readonly number[], predict: Predict): Row[] {
  const shifted = unknowns.map((_, i) => {
    const h = 1e-5;
    return {
      up: unknowns.map((value, k) => (k === i ? value + h : value)),
      down: unknowns.map((value, k) => (k === i ? value - h : value)),
      span: 2 * h,
    };
  });
  return sightings.flatMap(({ card: [xMm, yMm], photo, sigmaPx }) => {
    const here = predict(unknowns, xMm, yMm);
    const ends = shifted.map(({ up, down, span }) => {
      const high = predict(up, xMm, yMm);
      const low = predict(down, xMm, yMm);
      return [(high[0] - low[0]) / span / sigmaPx, (high[1] - low[1]) / span / sigmaPx] as const;
    });
    return ([0, 1] as const).map((axis) => ({
      slopes: ends.map((end) => end[axis]),
      residual: (photo[axis] - here[axis]) / sigmaPx,
    }));
  });
}

function normalEquations(
  sightings: readonly Sighting[],
  unknowns: readonly number[],
  priors: readonly number[],
  predict: Predict,
) {
  const n = unknowns.length;
  const normal = priors.map((sigma, i) => priors.map((_, j) => (i === j ? sigma ** -2 : 0)));
  // The homography's own unknowns are free; the others are believed to be near zero.
  const gradient = unknowns.map((value, i) => (i < 8 ? 0 : -value * priors[i]! ** -2));
  for (const { slopes, residual } of rowsOf(sightings, unknowns, predict)) {
    for (let i = 0; i < n; i++) {
      const slope = slopes[i]!;
      const line = normal[i]!;
      gradient[i]! += slope * residual;
      for (let j = 0; j < n; j++) line[j]! += slope * slopes[j]!;
    }
  }
  return { normal, gradient };
}

/** Errors of the sightings of each group under the fit without that group, to first order: (I - H)^-1 r. */
function leaveOut(
  sightings: readonly Sighting[],
  unknowns: readonly number[],
  priors: readonly number[],
  predict: Predict,
): number[] {
  const { normal } = normalEquations(sightings, unknowns, priors, predict);
  const rows = rowsOf(sightings, unknowns, predict);
  const errors = new Array<number>(sightings.length).fill(0);
  for (const group of new Set(sightings.map((sighting) => sighting.group))) {
    const members = sightings.flatMap((sighting, i) => (sighting.group === group ? [i] : []));
    const own = members.flatMap((i) => [rows[2 * i]!, rows[2 * i + 1]!]);
    const reach = own.map(({ slopes }) => solveSymmetric(normal, slopes));
    const rest = own.map((one, i) =>
      own.map(
        (_, j) => (i === j ? 1 + 1e-9 : 0) - one.slopes.reduce((sum, slope, k) => sum + slope * reach[j]![k]!, 0),
      ),
    );
    const left = solveSymmetric(
      rest,
      own.map((row) => row.residual),
    );
    members.forEach((i, k) => {
      errors[i] = Math.hypot(left[2 * k]!, left[2 * k + 1]!) * sightings[i]!.sigmaPx;
    });
  }
  return errors;
}
