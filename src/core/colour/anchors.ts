/**
 * From this photo's colours to those of another photo of the same printed card.
 *
 * Both photos have been corrected by their greys; what is left is how camera and light see colours. The printed
 * colour patches are the same in both photos, so their true colours need not be known. The map is linear or a
 * root polynomial of degree two, whose result doesn't depend on exposure (G. D. Finlayson, M. Mackiewicz,
 * A. Hurlbert, IEEE Trans. Image Process. 24:1460, 2015), held near to no change by a ridge, and chosen by
 * leaving one patch out in turn. It is never worse than no map by that measure.
 */
import { solveSymmetric } from '../math/least-squares.ts';
import { ciede2000 } from './difference.ts';
import { linearToLab, type Triple } from './lab.ts';
import type { CardSamples, PatchSample } from '../samples.ts';

/** A printed patch in both photos, linear sRGB after the greys. */
export interface Pair {
  readonly from: Triple;
  readonly to: Triple;
}

export interface IdentifiedPair extends Pair {
  readonly id: string;
}

export interface AnchorMap {
  readonly kind: MapKind;
  apply(linear: Triple): Triple;
  /** Root mean square CIEDE2000 of the anchors, each left out of the fit in turn. */
  readonly residual: number;
  /** The same without any map. */
  readonly residualWithout: number;
}

export type MapKind = 'none' | 'linear' | 'root-polynomial';

/** Weight of "no change" against one patch; set on simulated phones and lights. */
const RIDGE = 0.2;
/** Share of clipped pixels above which a patch tells nothing. */
const MOST_CLIPPED = 0.1;
/** Keeps dark patches, and their noise, from ruling the fit (linear reflectance). */
const SOFTENER = 0.03;

const TERMS: Record<'linear' | 'root-polynomial', (linear: Triple) => number[]> = {
  linear: ([r, g, b]) => [r, g, b],
  'root-polynomial': ([r, g, b]) => [r, g, b, root(r * g), root(g * b), root(r * b)],
};

function root(product: number): number {
  return Math.sqrt(Math.max(0, product));
}

/** Patches that are seen unclipped here and known from another photo, by their ids. */
export function pairsWith(
  samples: readonly PatchSample[],
  known: Readonly<Record<string, Triple>>,
  linear: (sample: PatchSample) => Triple,
): IdentifiedPair[] {
  return samples.flatMap((sample) => {
    const to = known[sample.id];
    return to && sample.clipped < MOST_CLIPPED ? [{ id: sample.id, from: linear(sample), to }] : [];
  });
}

/** A card's patches in this photo beside the same patches in another. */
export function cardPairs(
  card: CardSamples,
  known: { readonly anchors: Readonly<Record<string, Triple>>; readonly neutrals: Readonly<Record<string, Triple>> },
  linear: (sample: PatchSample) => Triple,
): { anchors: IdentifiedPair[]; neutrals: IdentifiedPair[] } {
  return {
    anchors: pairsWith(card.anchors, known.anchors, linear),
    neutrals: pairsWith(card.neutrals, known.neutrals, linear),
  };
}

/**
 * @param anchors colour patches seen in both photos
 * @param neutrals greys seen in both: they take part in the fit but aren't judged by
 */
export function fitAnchorMap(anchors: readonly Pair[], neutrals: readonly Pair[]): AnchorMap {
  const residualWithout = judge(anchors, () => (linear) => linear);
  let best: AnchorMap = { kind: 'none', apply: (linear) => linear, residual: residualWithout, residualWithout };
  for (const kind of ['linear', 'root-polynomial'] as const) {
    const residual = judge(anchors, (left) => fitMap(kind, [...anchors.filter((_, i) => i !== left), ...neutrals]));
    if (residual >= best.residual) continue;
    best = { kind, apply: fitMap(kind, [...anchors, ...neutrals]), residual, residualWithout };
  }
  return best;
}

/** Root mean square error over the anchors with a map that was fitted without the one judged. */
function judge(anchors: readonly Pair[], mapWithout: (left: number) => (linear: Triple) => Triple): number {
  if (anchors.length === 0) return Number.POSITIVE_INFINITY;
  const squares = anchors.map(({ from, to }, i) => ciede2000(linearToLab(mapWithout(i)(from)), linearToLab(to)) ** 2);
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}

/** The map of one kind that fits the pairs best while it stays near no change. */
export function fitMap(kind: 'linear' | 'root-polynomial', pairs: readonly Pair[]): (linear: Triple) => Triple {
  const termsOf = TERMS[kind];
  const rows = ([0, 1, 2] as const).map((channel) => fitRow(termsOf, pairs, channel));
  return (linear) => {
    const terms = termsOf(linear);
    return rows.map((row, c) =>
      row.reduce((sum, factor, i) => sum + factor * terms[i]!, linear[c]!),
    ) as unknown as Triple;
  };
}

/** Factors of the terms in the change of one channel. Weighted so that errors count about as they are seen. */
function fitRow(termsOf: (linear: Triple) => number[], pairs: readonly Pair[], channel: 0 | 1 | 2): number[] {
  const n = termsOf([0, 0, 0]).length;
  const a = Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => (i === j ? RIDGE : 0)));
  const b = new Array<number>(n).fill(0);
  for (const { from, to } of pairs) {
    const weight = 1 / (Math.max(0, to[channel]) + SOFTENER) ** (4 / 3);
    const terms = termsOf(from);
    const change = to[channel] - from[channel];
    terms.forEach((left, i) => {
      b[i]! += weight * left * change;
      terms.forEach((right, j) => (a[i]![j]! += weight * left * right));
    });
  }
  return solveSymmetric(a, b);
}
