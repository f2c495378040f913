import { describe, expect, it } from 'vitest';
import { Filter, gaussian, type Row } from '../../../src/core/track/filter.ts';
import { smooth } from '../../../src/core/track/smoother.ts';
import { randomFrom } from '../../studio/random.ts';
import { Dense } from './dense.ts';
import { NILE, NILE_FIRST_YEAR } from '../../reference/nile.ts';

/** Durbin & Koopman 2012, section 2.2.5: variances by maximum likelihood, and a start that knows nothing. */
const IRREGULAR = 15_099;
const LEVEL = 1469.1;

function nile() {
  const filter = new Filter(gaussian([0], [Math.sqrt(1e7)]), [0]);
  let first = 0;
  NILE.forEach((flow, i) => {
    filter.mark(i);
    filter.observe([0, 1], flow, IRREGULAR, i);
    if (i === 0) first = filter.logLikelihood;
    filter.disturb(0, LEVEL);
  });
  return { filter, afterFirst: filter.logLikelihood - first };
}

describe('the local level of the Nile', () => {
  it('has the likelihood that others publish', () => {
    // -632.54421 for these variances, the first year not counted: test/models/locallevel.jl of StateSpaceModels.jl (MPL-2.0).
    expect(nile().afterFirst).toBeCloseTo(-632.54421, 4);
  });

  it('settles at the published variance', () => {
    // Durbin & Koopman 2012, section 2.2: P converges to 4032.16, without what the next year adds.
    const { filter } = nile();
    expect(filter.state.covariance[0]! - LEVEL).toBeCloseTo(4032.16, 1);
  });

  it('has its sudden change where the dam was begun, in 1899', () => {
    // The standard example of a level shift: Cobb, The problem of the Nile, Biometrika 65, 1978, 243-251.
    const { filter } = nile();
    const { states } = smooth(filter);
    const clearest = states.reduce((a, b) => (Math.abs(b.shock[0]!) > Math.abs(a.shock[0]!) ? b : a));
    expect(NILE_FIRST_YEAR + clearest.id).toBe(1899);
    expect(clearest.shock[0]).toBeLessThan(-3);
  });
});

describe('filter and smoother beside the whole Gaussian written out', () => {
  const SIZE = 4;
  it.each([1, 2, 3, 4, 5, 6, 7, 8])('agree in likelihood, mean and variance: case %i', (seed) => {
    const random = randomFrom(seed);
    const start: [number[], number[]] = [[], []];
    for (let i = 0; i < SIZE; i++) {
      start[0].push(random.normal());
      start[1].push(random.between(0.5, 2));
    }
    const filter = new Filter(gaussian(...start), [0, 1, 2, 3]);
    const dense = new Dense(...start);
    const row = (): Row =>
      [0, 1, 2, 3].filter(() => random.chance(0.6)).flatMap((place) => [place, 0.7 * random.normal()]);
    const some = () => Math.floor(random.between(0, SIZE));
    for (let i = 0; i < 24; i++) {
      filter.mark(i);
      dense.mark();
      const [place, amount, variance] = [some(), random.normal(), random.between(0.1, 1)];
      filter.shift(place, amount);
      dense.shift(place, amount);
      filter.disturb(place, variance);
      dense.disturb(place, variance);
      for (const moved of [some(), some()]) {
        const sum = row();
        filter.move(moved, sum);
        dense.move(moved, sum);
      }
      const seen: [Row, number, number] = [[some(), 1, ...row().slice(0, 2)], random.normal(), random.between(0.1, 1)];
      filter.observe(...seen);
      dense.observe(...seen);
    }
    const { logLikelihood, marked } = dense.solve();
    expect(filter.logLikelihood).toBeCloseTo(logLikelihood, 8);
    const { states } = smooth(
      filter,
      [0, 1, 2, 3].map((place) => [place]),
    );
    expect(states.map(({ id }) => id)).toEqual(marked.map((_, i) => i));
    states.forEach((state, i) => {
      marked[i]!.mean.forEach((mean, k) => expect(state.mean[k]).toBeCloseTo(mean, 7));
      marked[i]!.variance.forEach((variance, k) => expect(state.sums[k]!.variance).toBeCloseTo(variance, 7));
    });
  });

  it('tells a shock and a misfit by how much the fit gains when they are allowed for', () => {
    // A shock of free size at a moment raises twice the log-likelihood by its z squared, less what its own doubt costs:
    // here by refitting with a very wide disturbance there.
    const random = randomFrom(11);
    const values = Array.from({ length: 20 }, (_, i) => random.normal() + (i >= 12 ? 6 : 0));
    const run = (wide: number | null, skip: number | null) => {
      const filter = new Filter(gaussian([0], [3]), [0]);
      values.forEach((value, i) => {
        if (i === wide) filter.disturb(0, WIDE);
        filter.mark(i);
        if (i !== skip) filter.observe([0, 1], value, 1, i);
        filter.disturb(0, 0.05);
      });
      return filter;
    };
    const WIDE = 1e8;
    const plain = run(null, null);
    const { states, misfits } = smooth(plain);
    const shock = states[12]!;
    const gain = 2 * (run(12, null).logLikelihood - plain.logLikelihood);
    const information = (shock.shock[0]! / shock.shockSize[0]!) ** 2;
    expect(gain + Math.log(1 + WIDE * information)).toBeCloseTo(shock.shock[0]! ** 2, 3);
    expect(shock.shockSize[0]).toBeGreaterThan(3);
    const without = smooth(run(null, 5), [[0]]).states[5]!;
    const expected = (values[5]! - without.mean[0]!) / Math.sqrt(without.sums[0]!.variance + 1);
    expect(misfits[5]!.size).toBeCloseTo(expected, 8);
  });
});
