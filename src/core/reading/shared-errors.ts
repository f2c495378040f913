/**
 * What the greys can't tell, asked of all pads at once.
 *
 * After the greys, every pad of a strip still shares the same small errors: paper brighter or darker than
 * assumed, the wet film's veil, a tone curve that was taken for dot gain, a leftover cast. And what the colour map leaves is
 * alike in colours that are alike. Each pad must lie on its own curve, and the bare plastic must have its own colour; one
 * fit finds the shared errors and places that let them, held by how far each usually strays, and says how sure each place is.
 */
import { compress, expand, linearToCompressed } from '../colour/compressed.ts';
import { ciede2000 } from '../colour/difference.ts';
import { linearToLab, type Triple } from '../colour/lab.ts';
import { factorOf, solveFactored, whiten } from '../math/cholesky.ts';
import { covarianceAt, fitWithPriors, type Unknown } from '../math/least-squares.ts';
import type { ScaleCurve } from '../scale/curve.ts';

/** The bare plastic: corrected colour in this photo, and the scale's own Lab. */
export interface Base {
  readonly linear: Triple;
  readonly lab: Triple;
}

export interface PadColour {
  readonly linear: Triple;
  readonly curve: ScaleCurve;
  /** Position of the nearest colour on the curve: where the search starts. */
  readonly position: number;
  /** Standard deviation of what this pad alone is off by, CIEDE2000: dye, film, scatter, doubts. */
  readonly sigma: number;
}

/** A pad freed of what it shares with the others. */
export interface PlacedColour {
  /** Without the shared errors, Lab: how far it lies from its curve says whether it belongs there. */
  readonly seen: Triple;
  /** Without what the map most likely left in it, too: nearest to the curve where all pads together fit best. */
  readonly lab: Triple;
  /** Standard deviation of the place along the curve, CIEDE2000. */
  readonly sigma: number;
  /** Standard deviation of `seen` in any one direction, CIEDE2000. */
  readonly seenSigma: number;
}

const SHARED: readonly Unknown[] = [
  { prior: 0, sigma: 0.1 }, // gain, ln
  { prior: 0, sigma: 0.025 }, // red against green, ln
  { prior: 0, sigma: 0.025 }, // blue against green, ln
  { prior: 0, sigma: 0.2 }, // contrast: slope in ln-ln about the paper's white
  { prior: 0, sigma: 0.1 }, // contrast: bend
  { prior: 0.008, sigma: 0.01 }, // the wet film's veil, linear reflectance
  { prior: 0, sigma: 0.04 }, // vividness, ln
];
/** The same where the strip's white says that the paper, and so the light that the greys told, is tinted. */
const TINTED: readonly Unknown[] = SHARED.map((unknown, i) =>
  i === 1 || i === 2 ? { ...unknown, sigma: 0.15 } : unknown,
);
/** Difference in a* and b* from the strip's own white beyond which the paper is to blame. */
const MAX_TINT = 4;

/** How far the bare plastic comes out from its own hue and chroma, CIELAB: by how much the paper is tinted. */
export function tintOf({ linear, lab }: Base): number {
  const [, a, b] = linearToLab(linear);
  return Math.hypot(a - lab[1], b - lab[2]);
}

/** The paper's reflectance, where contrast turns; the bend leaves it and a darker point (ln below it) alone. */
const WHITE = 0.86;
const DARKER = -1.2;
/** Luminance of linear sRGB, IEC 61966-2-1. */
const LUMA = [0.2126, 0.7152, 0.0722] as const;
const BASE_SIGMA = 1.5;
/** Positions are free: only kept from running away. */
const POSITION_SIGMA = 30;
/** A pad that fits its curve worse than this is another strip's, or unreadable: it is left out of the fit. */
const OUTLIER = 9;

/**
 * @param base the bare plastic: corrected colour in this photo and the scale's own Lab, where both are known
 * @param covarianceOf what the colour map leaves in colours, compressed CIELAB: see `ColourMap`
 */
export function withoutSharedErrors(
  pads: readonly PadColour[],
  base: Base | null,
  covarianceOf: (linears: readonly Triple[]) => number[][],
): PlacedColour[] {
  const inliers = pads.filter(({ curve, position, linear }) => {
    return ciede2000(curve.labAt(position), linearToLab(linear)) < OUTLIER;
  });
  const seen = [...inliers, ...(base ? [base] : [])];
  const map = covarianceOf(seen.map(({ linear }) => linear));
  const own = [...inliers.map(({ sigma }) => sigma), BASE_SIGMA];
  const factor = factorOf(
    map.map((row, i) => row.map((value, j) => value + (i === j ? own[Math.floor(i / 3)]! ** 2 : 0))),
  );
  const unknowns = [
    ...(base && tintOf(base) > MAX_TINT ? TINTED : SHARED),
    ...inliers.map((pad) => ({ prior: pad.position, sigma: POSITION_SIGMA })),
  ];
  const misfitsOf = (x: readonly number[]) => [
    ...inliers.flatMap(({ curve, linear }, i) =>
      less(linearToCompressed(without(linear, x)), compress(curve.labAt(x[SHARED.length + i]!))),
    ),
    ...(base ? less(linearToCompressed(without(base.linear, x)), compress(base.lab)) : []),
  ];
  const residualsOf = (x: readonly number[]) => whiten(factor, misfitsOf(x));
  const { x } = fitWithPriors(residualsOf, unknowns);
  const covariance = covarianceAt(residualsOf, x, unknowns);
  const share = solveFactored(factor, misfitsOf(x));
  return pads.map((pad): PlacedColour => {
    const seenAs = linearToLab(without(pad.linear, x));
    const i = inliers.indexOf(pad);
    const seenSigma = ownSigma(pad, covarianceOf);
    if (i < 0) return { seen: seenAs, lab: seenAs, sigma: seenSigma, seenSigma };
    // What is left of the misfit once the map's likely part of it is taken off is the pad's own.
    const left = [0, 1, 2].map((c) => pad.sigma ** 2 * share[3 * i + c]!);
    const found = pad.curve.labAt(x[SHARED.length + i]!);
    const lab = expand(compress(found).map((value, c) => value + left[c]!) as unknown as Triple);
    const place = SHARED.length + i;
    return { seen: seenAs, lab, sigma: Math.sqrt(covariance[place]![place]!), seenSigma };
  });
}

/** A pad's uncertainty by itself. */
function ownSigma({ linear, sigma }: PadColour, covarianceOf: (linears: readonly Triple[]) => number[][]): number {
  const own = covarianceOf([linear]);
  return Math.sqrt(sigma ** 2 + (own[0]![0]! + own[1]![1]! + own[2]![2]!) / 3);
}

function without(linear: Triple, x: readonly number[]): Triple {
  const [gain, red, blue, slope, bend, veil, vividness] = x as [number, number, number, number, number, number, number];
  const gains = [gain + red, gain, gain + blue];
  const grey = LUMA[0] * linear[0] + LUMA[1] * linear[1] + LUMA[2] * linear[2];
  return linear.map((value, c) => {
    const seen = grey + Math.exp(vividness) * (value - grey);
    const w = Math.log(Math.max(1e-4, seen - veil) / WHITE) + gains[c]!;
    return WHITE * Math.exp((1 + slope) * w + bend * w * (w - DARKER));
  }) as unknown as Triple;
}

function less(one: Triple, other: Triple): Triple {
  return [one[0] - other[0], one[1] - other[1], one[2] - other[2]];
}
