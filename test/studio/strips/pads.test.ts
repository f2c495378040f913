/** The practice pads' chemistry and optics against textbook relations. */
import { describe, expect, test } from 'vitest';
import { overlap, spectrumOf, WAVELENGTHS_NM } from '../spectra/wavelengths.ts';
import { alkalinityPadPh, baseShare, cyanuricPadPh, metalShare, oxidisedShare } from './chemistry.ts';
import { PHENOL_RED } from './indicators.ts';
import { absorptionOf, reflectanceOf } from './pads.ts';
import { developed, STRIPS } from './strips.ts';

describe('Kubelka-Munk', () => {
  // (1 - R)² / 2R by hand.
  test.each([
    [0.5, 0.25],
    [0.2, 1.6],
    [0.1, 4.05],
  ])('reflectance %f means K/S %f', (reflectance, ks) => {
    expect(absorptionOf([reflectance])[0]).toBeCloseTo(ks, 10);
    expect(reflectanceOf([ks])[0]).toBeCloseTo(reflectance, 10);
  });
});

describe('acid and base', () => {
  test('half is base at the pKa, one in eleven a unit below', () => {
    expect(baseShare(7.9, 7.9)).toBe(0.5);
    expect(baseShare(6.9, 7.9)).toBeCloseTo(1 / 11, 12);
  });

  test('a half-neutralised weak acid has the pH of its pKa', () => {
    // 2 mmol/L of charge is 100.08 mg/L as CaCO3: half of 4 mmol/L of acid.
    expect(alkalinityPadPh(100.08, { pKa: 4.76, acidMmolL: 4, takenMmolL: 0 })).toBeCloseTo(4.76, 1);
  });

  test('cyanuric acid lowers the pH of its pad, alkalinity raises that of the other', () => {
    const base = { pKa: 6.6, baseMmolL: 0.8, acidifiedMmolL: 0.1 };
    expect(cyanuricPadPh(0, base)).toBeCloseTo(6.6 + Math.log10(7), 1);
    expect(cyanuricPadPh(100, base)).toBeLessThan(cyanuricPadPh(20, base));
    const acid = { pKa: 4.76, acidMmolL: 6.6, takenMmolL: 0.35 };
    expect(alkalinityPadPh(150, acid)).toBeGreaterThan(alkalinityPadPh(60, acid));
  });

  // The forms of phenol red absorb alike at 477 nm: vignette "Phenol Red - pH Indicator" of the R package colorSpec.
  test('phenol red keeps its isosbestic point near 477 nm', () => {
    const crossing = WAVELENGTHS_NM.find((nm, i) => nm > 440 && PHENOL_RED.second[i]! > PHENOL_RED.first[i]!)!;
    expect(Math.abs(crossing - 477)).toBeLessThanOrEqual(6);
  });
});

test('a dye with a strong chelator beside it stays free until that is used up', () => {
  const pad = { chelatedMgL: 50, halfMgL: 100 };
  expect(metalShare(20, pad)).toBeLessThan(0.1);
  expect(metalShare(5000, pad)).toBeGreaterThan(0.95);
});

test('chlorine colours a pad less and less', () => {
  const pad = { halfMgL: 3, lostMgL: 0.5 };
  const [low, middle, high] = [1, 4, 10].map((mgL) => oxidisedShare(mgL + 1, pad) - oxidisedShare(mgL, pad));
  expect(low).toBeGreaterThan(middle!);
  expect(middle).toBeGreaterThan(high!);
});

test('no pad throws back more light than falls on it, and more dye is always darker', () => {
  const all = spectrumOf(() => 1);
  for (const strip of STRIPS) {
    for (const pad of strip.pads) {
      for (const value of pad.values) {
        const colour = developed(pad, value);
        expect(Math.max(...colour)).toBeLessThan(0.95);
        expect(Math.min(...colour)).toBeGreaterThan(0.02);
        expect(overlap(developed(pad, value, 1.2), all)).toBeLessThan(overlap(colour, all));
      }
    }
  }
});
