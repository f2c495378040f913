/**
 * Cyanuric acid and the chlorine it holds: every species of the published models, in one form.
 * Each forms from H3Cy (cyanuric acid) + n HOCl, giving off z H+ and n H2O.
 */
import { HYPOCHLOROUS_1974, HYPOCHLOROUS_MORRIS, OBRIEN_1974, WAHMAN_2019, type LogConstant } from './constants.ts';

export type CyanurateName =
  'H3Cy' | 'H2Cy-' | 'HCy2-' | 'Cy3-' | 'H2ClCy' | 'HClCy-' | 'ClCy2-' | 'HCl2Cy' | 'Cl2Cy-' | 'Cl3Cy';

interface Species {
  readonly name: CyanurateName;
  /** Chlorines held. */
  readonly chlorines: number;
  /** Protons given off: the negative charge. */
  readonly charge: number;
  /** log of the overall constant from H3Cy and HOCl. */
  readonly log: (kelvin: number) => number;
}

export interface CyanurateModel {
  readonly id: 'obrien-1974' | 'wahman-2019';
  readonly hypochlorous: LogConstant;
  readonly species: readonly Species[];
}

const OLD = OBRIEN_1974;
const monochlor1974 = (kelvin: number) => OLD.K6.log(kelvin) - OLD.K9a.log(kelvin);
const dichlor1974 = (kelvin: number) => monochlor1974(kelvin) - OLD.K7a.log(kelvin);

/** The full model: ten cyanurates. */
export const MODEL_1974: CyanurateModel = {
  id: 'obrien-1974',
  hypochlorous: HYPOCHLOROUS_1974,
  species: [
    { name: 'H3Cy', chlorines: 0, charge: 0, log: () => 0 },
    { name: 'H2Cy-', chlorines: 0, charge: 1, log: OLD.K6.log },
    { name: 'HCy2-', chlorines: 0, charge: 2, log: (t) => OLD.K6.log(t) + OLD.K10.log(t) },
    { name: 'Cy3-', chlorines: 0, charge: 3, log: (t) => OLD.K6.log(t) + OLD.K10.log(t) + OLD.K12.log(t) },
    { name: 'H2ClCy', chlorines: 1, charge: 0, log: (t) => monochlor1974(t) - OLD.K4.log(t) },
    { name: 'HClCy-', chlorines: 1, charge: 1, log: monochlor1974 },
    { name: 'ClCy2-', chlorines: 1, charge: 2, log: (t) => monochlor1974(t) + OLD.K8.log(t) },
    { name: 'HCl2Cy', chlorines: 2, charge: 0, log: (t) => dichlor1974(t) - OLD.K2.log(t) },
    { name: 'Cl2Cy-', chlorines: 2, charge: 1, log: dichlor1974 },
    { name: 'Cl3Cy', chlorines: 3, charge: 0, log: (t) => dichlor1974(t) - OLD.K2.log(t) - OLD.K1a.log(t) },
  ],
};

const NEW = WAHMAN_2019;
const monochlor2019 = (kelvin: number) => NEW.K6.log(kelvin) - NEW.K9a.log(kelvin);

/** The later, simpler model: the four species that matter between pH 6 and 9. */
export const MODEL_2019: CyanurateModel = {
  id: 'wahman-2019',
  hypochlorous: HYPOCHLOROUS_MORRIS,
  species: [
    { name: 'H3Cy', chlorines: 0, charge: 0, log: () => 0 },
    { name: 'H2Cy-', chlorines: 0, charge: 1, log: NEW.K6.log },
    { name: 'HClCy-', chlorines: 1, charge: 1, log: monochlor2019 },
    { name: 'Cl2Cy-', chlorines: 2, charge: 1, log: (t) => monochlor2019(t) - NEW.K7a.log(t) },
  ],
};

/** A model at one temperature: what depends on nothing else. */
export interface CyanuratesAt {
  readonly hypochlorous: number;
  readonly species: readonly { readonly name: CyanurateName; chlorines: number; charge: number; constant: number }[];
}

export function cyanuratesAt(model: CyanurateModel, kelvin: number): CyanuratesAt {
  return {
    hypochlorous: 10 ** model.hypochlorous.log(kelvin),
    species: model.species.map(({ name, chlorines, charge, log }) => ({
      name,
      chlorines,
      charge,
      constant: 10 ** log(kelvin),
    })),
  };
}

export interface Cyanurates {
  /** mol/L. */
  readonly hypochlorousAcid: number;
  readonly hypochlorite: number;
  /** mol/L, in the order of the model's species. */
  readonly species: readonly number[];
}

/**
 * Shares the chlorine out.
 * @param h activity of H+
 * @param chlorine free chlorine as tests find it, mol/L
 * @param cyanurate all of it, mol/L
 * @param gamma1 activity coefficient of a single charge; 1 for the models as published
 */
export function shareChlorine(
  at: CyanuratesAt,
  h: number,
  chlorine: number,
  cyanurate: number,
  gamma1 = 1,
): Cyanurates {
  const ionised = at.hypochlorous / (h * gamma1);
  // Per mole of H3Cy, without the factor x for each chlorine held; summed by the number of chlorines.
  const factors: number[] = [];
  const byChlorines: Polynomial = [0, 0, 0, 0];
  const perCharge = chargeFactors(h, gamma1);
  for (const { constant, charge, chlorines } of at.species) {
    const factor = constant * perCharge[charge]!;
    factors.push(factor);
    byChlorines[chlorines]! += factor;
  }
  const x = chlorine > 0 ? solveHypochlorous(byChlorines, 1 + ionised, chlorine, cyanurate) : 0;
  const bare = cyanurate / valueAt(byChlorines, x);
  const perChlorine = [bare, bare * x, bare * x * x, bare * x * x * x];
  return {
    hypochlorousAcid: x,
    hypochlorite: x * ionised,
    species: factors.map((factor, i) => factor * perChlorine[at.species[i]!.chlorines]!),
  };
}

/** 1 / (h^z γ^(z²)) for charges z from 0 to 3: what giving off protons costs. */
function chargeFactors(h: number, gamma1: number): readonly number[] {
  const g2 = gamma1 * gamma1;
  const g4 = g2 * g2;
  return [1, 1 / (h * gamma1), 1 / (h * h * g4), 1 / (h * h * h * g4 * g4 * gamma1)];
}

/** The binding polynomial: cyanurate with 0, 1, 2, 3 chlorines, by powers of [HOCl]. */
type Polynomial = [number, number, number, number];

function valueAt([a, b, c, d]: Polynomial, x: number): number {
  return a + x * (b + x * (c + x * d));
}

const ITERATIONS = 100;
const TOLERANCE = 1e-13;

/** Newton's method for [HOCl], kept inside a shrinking bracket: the total rises with x. */
function solveHypochlorous(p: Polynomial, perHypochlorous: number, chlorine: number, cyanurate: number): number {
  let low = 0;
  let high = chlorine / perHypochlorous;
  let x = firstGuess(p, perHypochlorous, chlorine, cyanurate);
  for (let i = 0; i < ITERATIONS; i++) {
    const whole = valueAt(p, x);
    const mean = (x * (p[1] + x * (2 * p[2] + x * 3 * p[3]))) / whole;
    const meanSquare = (x * (p[1] + x * (4 * p[2] + x * 9 * p[3]))) / whole;
    const excess = x * perHypochlorous + cyanurate * mean - chlorine;
    if (excess > 0) high = x;
    else low = x;
    const step = x - excess / (perHypochlorous + (cyanurate * (meanSquare - mean * mean)) / x);
    // At the root a step stays where it is, which has just become an end.
    const next = step >= low && step <= high ? step : (low + high) / 2;
    if (Math.abs(next - x) <= TOLERANCE * x) return next;
    x = next;
  }
  return x;
}

/** As if a cyanurate held one chlorine at most: a quadratic. */
function firstGuess([none, one]: Polynomial, perHypochlorous: number, chlorine: number, cyanurate: number): number {
  const a = perHypochlorous * one;
  const b = perHypochlorous * none + (cyanurate - chlorine) * one;
  const c = -chlorine * none;
  const root = Math.sqrt(b * b - 4 * a * c);
  return b > 0 ? (-2 * c) / (b + root) : (root - b) / (2 * a);
}
