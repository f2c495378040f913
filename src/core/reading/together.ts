/**
 * What the greys can't tell, asked of all pads at once.
 *
 * After the greys, every pad of a strip still shares the same small errors: paper brighter or darker than
 * assumed, the wet film's veil, a tone curve that hid behind the dot gain, a leftover cast. Each pad must lie
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

export interface PadColour {
  readonly linear: Triple;
  readonly curve: ScaleCurve;
  /** Position of the nearest colour on the curve: where the search starts. */
  readonly position: number;
}

/* Gain (ln), red and blue gain against it (ln), contrast about the paper's white, veil (linear reflectance). */
const SHARED: readonly Unknown[] = [
  { prior: 0, sigma: 0.05 },
  { prior: 0, sigma: 0.015 },
  { prior: 0, sigma: 0.02 },
  { prior: 0, sigma: 0.05 },
  { prior: 0.008, sigma: 0.01 },
];
const WHITE = 0.86;
/** What camera and dye leave over for a single pad, CIEDE2000. */
const PAD_SIGMA = 1.8;
const BASE_SIGMA = 1;
/** Positions are free: only kept from running away. */
const POSITION_SIGMA = 30;
/** A pad that fits its curve worse than this is another strip's, or unreadable: it has no say. */
const OUTLIER = 9;

/**
 * @param base the bare plastic: corrected colour in this photo and the scale's own Lab, where both are known
 */
export function fitSharedErrors(
  pads: readonly PadColour[],
  base: { readonly linear: Triple; readonly lab: Triple } | null,
): SharedErrors {
  const heard = pads.filter((pad) => {
    const terms = ciede2000Terms(pad.curve.labAt(pad.position), linearToLab(pad.linear));
    return Math.hypot(...terms) < OUTLIER;
  });
  const unknowns = [...SHARED, ...heard.map((pad) => ({ prior: pad.position, sigma: POSITION_SIGMA }))];
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
  const gains = [x[0]! + x[1]!, x[0]!, x[0]! + x[2]!];
  return linear.map((value, c) => {
    const lifted = Math.max(1e-4, value - x[4]!) * Math.exp(gains[c]!);
    return WHITE * (lifted / WHITE) ** (1 + x[3]!);
  }) as unknown as Triple;
}

function scaled(terms: Triple, sigma: number): number[] {
  return terms.map((term) => term / sigma);
}
