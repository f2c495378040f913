/** Every species against the law of mass action, each equilibrium with its printed constant. */
import { describe, expect, it } from 'vitest';
import { cyanuratesAt, MODEL_1974, MODEL_2019, shareChlorine } from '../../../src/core/water/cyanurates.ts';

/** pK at 25 °C as printed by O'Brien, Morris & Butler 1974: see constants.test.ts. */
const PK = { K6: 6.88, K10: 11.4, K12: 13.5, K9a: 5.62, K8: 10.12, K4: 5.33, K7a: 4.51, K2: 3.75, K1a: 1.8 };

function shared(model: typeof MODEL_1974, ph: number, chlorine: number, cyanurate: number, gamma1: number) {
  const at = cyanuratesAt(model, 298.15);
  const found = shareChlorine(at, 10 ** -ph, chlorine, cyanurate, gamma1);
  const held = (name: string) => found.species[at.species.findIndex((one) => one.name === name)]!;
  /** Activity: γ of a charge z is that of a single charge to the power z². */
  const activity = (name: string) =>
    held(name) * gamma1 ** ({ '-': 1, '2-': 4, '3-': 9 }[/\d?-$/.exec(name)?.[0] ?? ''] ?? 0);
  return { ...found, held, activity };
}

/** mol/L: little chlorine to the stabilizer, as much, more than it can hold; and so much that Newton's steps go astray. */
const AMOUNTS = [
  [3e-5, 4e-4],
  [4e-4, 4e-4],
  [5e-3, 4e-4],
  [1.8e-2, 1e-2],
  [0.1, 0.1],
] as const;

const WATERS = [2, 4.5, 6.5, 7.5, 9, 12].flatMap((ph) =>
  [1, 0.8].flatMap((gamma1) => AMOUNTS.map(([chlorine, cyanurate]) => ({ ph, gamma1, chlorine, cyanurate }))),
);

describe.each(WATERS)(
  'at pH $ph, γ $gamma1, $chlorine chlorine to $cyanurate',
  ({ ph, gamma1, chlorine, cyanurate }) => {
    const { activity: a, held, hypochlorousAcid, hypochlorite } = shared(MODEL_1974, ph, chlorine, cyanurate, gamma1);
    const h = 10 ** -ph;

    it.each([
      ['K6', (h * a('H2Cy-')) / a('H3Cy')],
      ['K10', (h * a('HCy2-')) / a('H2Cy-')],
      ['K12', (h * a('Cy3-')) / a('HCy2-')],
      ['K9a', (a('H2Cy-') * hypochlorousAcid) / a('HClCy-')],
      ['K8', (h * a('ClCy2-')) / a('HClCy-')],
      ['K4', (h * a('HClCy-')) / a('H2ClCy')],
      ['K7a', (a('HClCy-') * hypochlorousAcid) / a('Cl2Cy-')],
      ['K2', (h * a('Cl2Cy-')) / a('HCl2Cy')],
      ['K1a', (a('HCl2Cy') * hypochlorousAcid) / a('Cl3Cy')],
    ] as const)('%s', (name, quotient) => {
      expect(-Math.log10(quotient)).toBeCloseTo(PK[name], 9);
    });

    it('HOCl, 7.54', () => expect(-Math.log10((h * hypochlorite * gamma1) / hypochlorousAcid)).toBeCloseTo(7.54, 9));

    it('nothing is lost or made', () => {
      const one = held('H2ClCy') + held('HClCy-') + held('ClCy2-');
      const two = held('HCl2Cy') + held('Cl2Cy-');
      const three = held('Cl3Cy');
      const none = held('H3Cy') + held('H2Cy-') + held('HCy2-') + held('Cy3-');
      expect((none + one + two + three) / cyanurate).toBeCloseTo(1, 11);
      expect((hypochlorousAcid + hypochlorite + one + 2 * two + 3 * three) / chlorine).toBeCloseTo(1, 11);
    });
  },
);

describe('the later model', () => {
  const { held, hypochlorousAcid } = shared(MODEL_2019, 7.2, 4e-5, 4e-4, 1);

  it.each([
    // pK = 1743/T + 1.12, 2229/T - 1.65 and 2028/T - 2.15 (Wahman 2018, Wahman & Alexander 2019) at 298.15 K.
    ['K6', (10 ** -7.2 * held('H2Cy-')) / held('H3Cy'), 5.84605 + 1.12],
    ['K9a', (held('H2Cy-') * hypochlorousAcid) / held('HClCy-'), 7.4761 - 1.65],
    ['K7a', (held('HClCy-') * hypochlorousAcid) / held('Cl2Cy-'), 6.80195 - 2.15],
  ] as const)('%s', (_name, quotient, pk) => {
    expect(-Math.log10(quotient)).toBeCloseTo(pk, 4);
  });

  it.each(AMOUNTS)('nothing is lost or made of %d and %d', (chlorine, cyanurate) => {
    for (const ph of [3, 5, 7.5]) {
      const found = shared(MODEL_2019, ph, chlorine, cyanurate, 1);
      const [one, two] = [found.held('HClCy-'), found.held('Cl2Cy-')];
      expect((found.held('H3Cy') + found.held('H2Cy-') + one + two) / cyanurate).toBeCloseTo(1, 11);
      expect((found.hypochlorousAcid + found.hypochlorite + one + 2 * two) / chlorine).toBeCloseTo(1, 11);
    }
  });
});

describe('without one of the two', () => {
  it('chlorine alone splits by its own constant', () => {
    const { hypochlorousAcid, species } = shared(MODEL_1974, 7.54, 1e-4, 0, 1);
    expect(hypochlorousAcid / 1e-4).toBeCloseTo(0.5, 9);
    expect(species.every((one) => one === 0)).toBe(true);
  });

  it('stabilizer alone is half ionised at its pK', () => {
    const { held, hypochlorousAcid } = shared(MODEL_1974, 6.88, 0, 4e-4, 1);
    expect(hypochlorousAcid).toBe(0);
    expect(held('H2Cy-') / held('H3Cy')).toBeCloseTo(1, 9);
    expect(held('HClCy-')).toBe(0);
  });
});
