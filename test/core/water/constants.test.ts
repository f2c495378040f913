import { describe, expect, it } from 'vitest';
import { daviesLogGamma, debyeHuckelSlope } from '../../../src/core/water/activity.ts';
import {
  BORIC,
  CALCITE,
  CARBONIC_1,
  CARBONIC_2,
  HENRY_CO2,
  HYPOCHLOROUS_1974,
  HYPOCHLOROUS_MORRIS,
  MODEL_RANGE,
  MOLAR_MASS,
  OBRIEN_1974,
  PAIR_CACO3,
  PAIR_CAHCO3,
  PAIR_CASO4,
  PAIR_NAHCO3,
  PAIR_NASO4,
  WAHMAN_2019,
  WATER_ION,
} from '../../../src/core/water/constants.ts';

const T25 = 298.15;
const kelvins = [5, 10, 15, 20, 25, 30, 35, 40].map((celsius) => celsius + 273.15);

describe('molar masses', () => {
  /** IUPAC conventional atomic weights (2021). */
  const H = 1.008;
  const C = 12.011;
  const N = 14.007;
  const O = 15.999;
  const Na = 22.98976928;
  const S = 32.06;
  const Cl = 35.45;
  const Ca = 40.078;
  const B = 10.81;

  it.each([
    ['CaCO3', Ca + C + 3 * O],
    ['NaHCO3', Na + H + C + 3 * O],
    ['Na2CO3', 2 * Na + C + 3 * O],
    ['NaOH', Na + O + H],
    ['HCl', H + Cl],
    ['NaHSO4', Na + H + S + 4 * O],
    ['CaCl2', Ca + 2 * Cl],
    ['CaCl2·2H2O', Ca + 2 * Cl + 2 * (2 * H + O)],
    ['NaCl', Na + Cl],
    ['Cl2', 2 * Cl],
    ['NaOCl', Na + O + Cl],
    ['Ca(OCl)2', Ca + 2 * (O + Cl)],
    ['cyanuricAcid', 3 * (C + N + O + H)],
    ['trichlor', 3 * (C + N + O + Cl)],
    ['dichlor', Na + 2 * Cl + 3 * (C + N + O)],
    ['dichlorDihydrate', Na + 2 * Cl + 3 * (C + N + O) + 2 * (2 * H + O)],
    ['Na2S2O3·5H2O', 2 * Na + 2 * S + 3 * O + 5 * (2 * H + O)],
    ['B', B],
    ['boricAcid', 3 * H + B + 3 * O],
    ['boraxDecahydrate', 2 * Na + 4 * B + 7 * O + 10 * (2 * H + O)],
    ['SO4', S + 4 * O],
    ['CO2', C + 2 * O],
  ] as const)('%s adds up', (name, sum) => {
    expect(MOLAR_MASS[name] / sum).toBeCloseTo(1, 4);
  });
});

describe('equilibrium constants at 25 °C, against the printed log K of wateq4f.dat and phreeqc.dat (USGS)', () => {
  it.each([
    ['K1', CARBONIC_1, 10.329 - 16.681],
    ['K2', CARBONIC_2, -10.329],
    ['calcite', CALCITE, -8.48],
    ['Henry', HENRY_CO2, -1.468],
    ['CaCO3 pair', PAIR_CACO3, 3.224],
    ['CaHCO3 pair', PAIR_CAHCO3, 10.91 - 10.329],
    ['boric', BORIC, -9.24],
  ] as const)('%s', (_name, constant, printed) => {
    expect(Math.abs(constant.log(T25) - printed)).toBeLessThan(0.006);
  });
});

describe('where the constants hold', () => {
  const [coldest, hottest] = MODEL_RANGE.temperatureC;

  it.each(
    Object.entries({
      CARBONIC_1,
      CARBONIC_2,
      HENRY_CO2,
      CALCITE,
      PAIR_CACO3,
      PAIR_CAHCO3,
      PAIR_NAHCO3,
      PAIR_CASO4,
      PAIR_NASO4,
      WATER_ION,
      BORIC,
    }),
  )('%s: over all temperatures that the model takes', (_name, { validC }) => {
    expect(validC[0]).toBeLessThanOrEqual(coldest);
    expect(validC[1]).toBeGreaterThanOrEqual(hottest);
  });

  it('chlorine is known over less: from 5 to 35 °C at best, much of it at 25 °C only', () => {
    for (const { validC } of [...Object.values(OBRIEN_1974), ...Object.values(WAHMAN_2019)]) {
      expect([
        [5, 35],
        [25, 25],
      ]).toContainEqual(validC);
    }
    for (const { validC } of [HYPOCHLOROUS_MORRIS, HYPOCHLOROUS_1974]) expect(validC).toEqual([0, 35]);
  });
});

describe('temperature', () => {
  it('of water agrees with Harned & Hamer (from memory, unverified) and with another fit read in public code', () => {
    for (const t of kelvins) {
      const harned = -(4470.99 / t - 6.0875 + 0.01706 * t);
      const another = -(4787.3 / t + 7.1321 * Math.log10(t) + 0.010365 * t - 22.801);
      expect(Math.abs(WATER_ION.log(t) - harned)).toBeLessThan(0.01);
      expect(Math.abs(WATER_ION.log(t) - another)).toBeLessThan(0.01);
    }
  });

  it('of boric acid agrees with Dickson 1990 at zero salinity', () => {
    for (const t of kelvins) {
      const dickson = (-8966.9 / t + 148.0248 - 24.4344 * Math.log(t)) / Math.LN10;
      expect(Math.abs(BORIC.log(t) - dickson)).toBeLessThan(0.035);
    }
  });

  it('of hypochlorous acid agrees with the quadratic of the US EPA breakpoint simulator', () => {
    for (const t of kelvins) {
      const epa = 1.18e-4 * t * t - 7.86e-2 * t + 20.5;
      expect(Math.abs(-HYPOCHLOROUS_MORRIS.log(t) - epa)).toBeLessThan(0.025);
    }
  });

  // Plummer & Busenberg 1982, as quoted in wateq4f.dat (USGS).
  it('of calcite: two fits of the same measurements part by no more than 0.04 up to 40 °C', () => {
    for (const t of kelvins) {
      const fitOf1982 = -171.9065 - 0.077993 * t + 2839.319 / t + 71.595 * Math.log10(t);
      expect(Math.abs(CALCITE.log(t) - fitOf1982)).toBeLessThan(0.04);
    }
  });

  it('of cyanuric acid is the enthalpy Wahman 2018 gives, 33.4 ± 1.7 kJ/mol', () => {
    const slope = (WAHMAN_2019.K6.log(303.15) - WAHMAN_2019.K6.log(283.15)) / (1 / 283.15 - 1 / 303.15);
    const kilojoules = (slope * 8.314462618 * Math.LN10) / 1000;
    expect(Math.abs(kilojoules - 33.4)).toBeLessThan(1.7);
  });
});

describe('the chlorinated cyanurates', () => {
  /** pK as printed: O'Brien, Morris & Butler 1974. */
  const printed = { K6: 6.88, K10: 11.4, K12: 13.5, K9a: 5.62, K8: 10.12, K4: 5.33, K7a: 4.51, K2: 3.75, K1a: 1.8 };

  it.each(Object.entries(printed))('%s is %d at 25 °C', (name, pk) => {
    expect(OBRIEN_1974[name as keyof typeof printed].log(T25)).toBeCloseTo(-pk, 10);
  });

  it('HOCl is 7.54 at 25 °C in the set of 1974', () => expect(HYPOCHLOROUS_1974.log(T25)).toBeCloseTo(-7.54, 10));

  it('of 2019 are those of the abstract at 25 °C: 4.65 ± 0.059 and 5.83 ± 0.020', () => {
    expect(Math.abs(-WAHMAN_2019.K7a.log(T25) - 4.65)).toBeLessThan(0.059);
    expect(Math.abs(-WAHMAN_2019.K9a.log(T25) - 5.83)).toBeLessThan(0.02);
  });
});

describe('activity', () => {
  it('has the textbook slope 0.509 at 25 °C', () => expect(debyeHuckelSlope(T25)).toBeCloseTo(0.509, 3));

  it('has no effect without ions', () => expect(Math.abs(daviesLogGamma(0.509, 0))).toBe(0));

  it.each([
    // Measured mean activity coefficients of NaCl at 25 °C (Robinson & Stokes 1959, table 8.10; from memory, unverified).
    [0.001, 0.965],
    [0.01, 0.902],
    [0.1, 0.778],
  ])('at I = %d gives NaCl its measured coefficient within 2 %%', (strength, measured) => {
    expect(10 ** daviesLogGamma(debyeHuckelSlope(T25), strength) / measured).toBeCloseTo(1, 1);
    expect(Math.abs(10 ** daviesLogGamma(debyeHuckelSlope(T25), strength) / measured - 1)).toBeLessThan(0.02);
  });
});
