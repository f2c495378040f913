/**
 * Maps of colours that are linear, or a root polynomial of degree two, whose result doesn't depend on exposure
 * (G. D. Finlayson, M. Mackiewicz, A. Hurlbert, IEEE Trans. Image Process. 24:1460, 2015): what the program's own map is
 * compared with.
 */
import type { Pair } from '../../src/core/colour/anchors.ts';
import type { Triple } from '../../src/core/colour/lab.ts';
import { solveSymmetric } from '../../src/core/math/least-squares.ts';

/** Weight of "no change" against one patch. */
const RIDGE = 0.2;
/** Keeps dark patches, and their noise, from ruling the fit (linear reflectance). */
const SOFTENER = 0.03;

const TERMS: Record<'linear' | 'root-polynomial', (linear: Triple) => number[]> = {
  linear: ([r, g, b]) => [r, g, b],
  'root-polynomial': ([r, g, b]) => [r, g, b, root(r * g), root(g * b), root(r * b)],
};

function root(product: number): number {
  return Math.sqrt(Math.max(0, product));
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
