import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { activeChlorine } from '../../../src/core/water/chlorine.ts';
import { strongAcidToPh } from '../../../src/core/water/demand.ts';
import { contentsOf, phOf, phWithAir, speciate, waterFrom } from '../../../src/core/water/equilibrium.ts';
import { WaterError } from '../../../src/core/water/errors.ts';
import { saturationIndex } from '../../../src/core/water/saturation.ts';
import { readingsOf, waterOf, type Water } from '../../../src/core/water/water.ts';
import { anyWater, extremeWater, runs } from './waters.ts';

describe('there and back', () => {
  it('readings to contents to readings', () => {
    fc.assert(
      fc.property(anyWater, (water) => {
        const contents = contentsOf(water);
        expect(phOf(contents)).toBeCloseTo(water.ph, 8);
        const again = waterFrom(contents, 6);
        for (const key of Object.keys(water) as (keyof Water)[]) expect(again[key]).toBeCloseTo(water[key], 7);
        expect(readingsOf(contents, water.ph).totalAlkalinity).toBeCloseTo(water.totalAlkalinity, 9);
      }),
      runs(),
    );
  });
});

describe('the species', () => {
  it('balance: carbon, calcium, alkalinity, and charge', () => {
    fc.assert(
      fc.property(anyWater, (water) => {
        const contents = contentsOf(water);
        const s = speciate(water);
        const carbon = s.carbonDioxide + s.bicarbonate + s.carbonate + s.CaCO3 + s.CaHCO3 + s.NaHCO3;
        expect(carbon).toBeCloseTo(s.inorganicCarbon, 12);
        expect(s.calciumIon + s.CaCO3 + s.CaHCO3 + s.CaSO4).toBeCloseTo(contents.calcium, 12);
        expect(s.sulfateIon + s.CaSO4 + s.NaSO4).toBeCloseTo(contents.sulfate, 12);
        const parts =
          s.carbonateAlkalinity +
          s.cyanurateAlkalinity +
          s.borateAlkalinity +
          s.hypochloriteAlkalinity +
          s.waterAlkalinity;
        expect(parts).toBeCloseTo(contents.alkalinity, 12);
        expect(s.bicarbonate + 2 * s.carbonate + 2 * s.CaCO3 + s.CaHCO3 + s.NaHCO3).toBeCloseTo(
          s.carbonateAlkalinity,
          12,
        );
        // Positive minus negative: what is left of calcium, sodium and chloride is what the weak acids carry.
        const chloride = contents.salt + 2 * contents.calcium - contents.chlorine;
        const weakAnions = s.borateAlkalinity + s.cyanurateAlkalinity + s.hypochloriteAlkalinity + s.waterAlkalinity;
        const charge =
          2 * s.calciumIon +
          s.sodiumIon +
          s.CaHCO3 -
          chloride -
          s.bicarbonate -
          2 * s.carbonate -
          2 * s.sulfateIon -
          s.NaSO4 -
          weakAnions;
        expect(charge).toBeCloseTo(0, 10);
      }),
      runs(),
    );
  });
});

describe('the ionic strength', () => {
  it('is half the sum of all charges squared: ½ Σ z² c', () => {
    fc.assert(
      fc.property(anyWater, (any) => {
        // Of stabilizer's ions only the sum of charges is told, not of squares.
        const water = { ...any, cyanuricAcid: 0 };
        const contents = contentsOf(water);
        const s = speciate(water);
        const hydrogen = 10 ** (-water.ph - s.logGamma1);
        const hydroxide = s.waterAlkalinity + hydrogen;
        const chloride = contents.salt + 2 * contents.calcium - contents.chlorine;
        const bound = s.bicarbonate + s.CaHCO3 + s.NaSO4 + s.borateAlkalinity + s.hypochloriteAlkalinity;
        const singly = s.sodiumIon + chloride + bound + hydrogen + hydroxide;
        const doubly = s.calciumIon + s.carbonate + s.sulfateIon;
        expect((singly + 4 * doubly) / 2 / s.ionicStrength).toBeCloseTo(1, 9);
      }),
      runs(),
    );
  });
});

describe('everywhere the checks let through', () => {
  it('every result is a number', () => {
    fc.assert(
      fc.property(extremeWater, fc.double({ min: 4.5, max: 10, noNaN: true }), (water, target) => {
        for (const value of Object.values(speciate(water))) expect(Number.isFinite(value)).toBe(true);
        expect(Number.isNaN(saturationIndex(water))).toBe(false);
        expect(phWithAir(water)).toBeGreaterThan(3);
        expect(phWithAir(water)).toBeLessThan(11);
        expect(Number.isFinite(strongAcidToPh(water, target))).toBe(true);
        const { by1974, by2019 } = activeChlorine(water);
        expect(by1974).toBeGreaterThanOrEqual(0);
        expect(by2019).toBeLessThanOrEqual(water.freeChlorine * (1 + 1e-9));
      }),
      runs(500),
    );
  });
});

describe('the index follows', () => {
  const usual = waterOf({ ph: 7.5, totalAlkalinity: 90, calciumHardness: 250, salt: 1000, cyanuricAcid: 30 });

  it.each([
    ['pH', { ph: 7.6 }, 1],
    ['temperature', { temperatureC: 30 }, 1],
    ['calcium', { calciumHardness: 300 }, 1],
    ['alkalinity', { totalAlkalinity: 100 }, 1],
    ['salt', { salt: 3000 }, -1],
    ['stabilizer', { cyanuricAcid: 60 }, -1],
    ['borate', { boron: 30 }, -1],
    ['sulfate', { sulfate: 500 }, -1],
  ])('%s', (_name, change, sign) => {
    expect(sign * (saturationIndex({ ...usual, ...change }) - saturationIndex(usual))).toBeGreaterThan(0.005);
  });
});

describe('contradictions', () => {
  it('alkalinity 0 at pH 8 is no water', () => {
    const impossible = waterOf({ ph: 8, totalAlkalinity: 0, calciumHardness: 200 });
    expect(() => speciate(impossible)).toThrow(new WaterError('contradictory'));
    expect(() => saturationIndex(impossible)).toThrow(new WaterError('contradictory'));
  });

  it('NaN in, WaterError out', () => {
    const nonsense = waterOf({ ph: Number.NaN, totalAlkalinity: 80, calciumHardness: 200 });
    expect(() => saturationIndex(nonsense)).toThrow(WaterError);
    expect(() => phWithAir(nonsense)).toThrow(WaterError);
  });
});

describe('at the ends of the scale', () => {
  const empty = contentsOf(waterOf({ ph: 7, totalAlkalinity: 0.01, calciumHardness: 0 }));
  const holding = (alkalinity: number, salt: number) => ({ ...empty, alkalinity, salt, inorganicCarbon: 0 });

  /* 50 mmol/L of a single charge: log γ = -0.509 (√0.05 / (1 + √0.05) - 0.3 · 0.05) = -0.0854, and -log 0.05 = 1.3010. */
  it.each([1.2, 4, 7.5, 12.8])('is found from pH %d on', (near) => {
    expect(phOf(holding(-0.05, 0.05), near)).toBeCloseTo(1.386, 3);
    // Kw is 10^-13.995 (phreeqc.dat).
    expect(phOf(holding(0.05, 0), near)).toBeCloseTo(13.995 - 1.386, 2);
  });

  it.each([
    ['0.2 mol/L of acid', holding(-0.2, 0.2)],
    ['0.3 mol/L of lye', holding(0.3, 0)],
  ])('%s lies beyond', (_name, contents) => {
    expect(() => phOf(contents)).toThrow(new WaterError('no-equilibrium'));
  });
});
