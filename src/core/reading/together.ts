/**
 * What the greys can't tell, asked of all pads at once.
 *
 * After the greys, every pad of a strip still shares the same small errors: paper brighter or darker than
 * assumed, the wet film's veil, a tone curve that hid behind the dot gain, a leftover cast, a phone that likes
 * its colours vivid. Each pad must lie
 * on its own curve, and the bare plastic must have its own colour; one fit finds the shared errors that let
 * them, held by how far each usually strays.
 */
import { ciede2000Terms } from '../colour/difference.ts';
import { linearToLab, type Triple } from '../colour/lab.ts';
import { fitWithPriors, type Unknown } from '../math/least-squares.ts';
import type { ScaleCurve } from '../scale/curve.ts';

export interface SharedErrors {
  /** Takes the shared errors out of a corrected colour (linear sRGB reflectance). */
  remove(linear: Triple): Triple;
}

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
const MOST_TINT = 4;

/** How far the bare plastic comes out from its own hue and chroma, CIELAB: by how much the paper is tinted. */
export function tintOf({ linear, lab }: Base): number {
  const [, a, b] = linearToLab(linear);
  return Math.hypot(a - lab[1], b - lab[2]);
}

function isTinted(base: Base): boolean {
  return tintOf(base) > MOST_TINT;
}

/** The paper's reflectance, where contrast turns; the bend leaves it and a darker point (ln below it) alone. */
const WHITE = 0.86;
const DARKER = -1.2;
/** Luminance of linear sRGB, IEC 61966-2-1. */
const LUMA = [0.2126, 0.7152, 0.0722] as const;
/** What camera and dye leave over for a single pad, CIEDE2000. */
const PAD_SIGMA = 1;
const BASE_SIGMA = 1.5;
/** Positions are free: only kept from running away. */
const POSITION_SIGMA = 30;
/** A pad that fits its curve worse than this is another strip's, or unreadable: it has no say. */
const OUTLIER = 9;

/**
 * @param base the bare plastic: corrected colour in this photo and the scale's own Lab, where both are known
 */
export function fitSharedErrors(pads: readonly PadColour[], base: Base | null): SharedErrors {
  const heard = pads.filter((pad) => {
    const terms = ciede2000Terms(pad.curve.labAt(pad.position), linearToLab(pad.linear));
    return Math.hypot(...terms) < OUTLIER;
  });
  const unknowns = [
    ...(base && isTinted(base) ? TINTED : SHARED),
    ...heard.map((pad) => ({ prior: pad.position, sigma: POSITION_SIGMA })),
  ];
  const residualsOf = (x: readonly number[]) => [
    ...heard.flatMap((pad, i) => {
      const expected = pad.curve.labAt(Math.min(pad.curve.length + 6, Math.max(-6, x[SHARED.length + i]!)));
      return scaled(ciede2000Terms(expected, linearToLab(without(pad.linear, x))), PAD_SIGMA);
    }),
    ...(base ? scaled(ciede2000Terms(base.lab, linearToLab(without(base.linear, x))), BASE_SIGMA) : []),
  ];
  const { x } = fitWithPriors(residualsOf, unknowns);
  return { remove: (linear) => without(linear, x) };
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

function scaled(terms: Triple, sigma: number): number[] {
  return terms.map((term) => term / sigma);
}
