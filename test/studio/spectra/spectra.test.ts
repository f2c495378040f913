/** The studio's light and colour against published figures. */
import { describe, expect, test } from 'vitest';
import { D50, D65, daylightChromaticity } from './daylight.ts';
import { brightening, correlatedTemperatureK, ledWhite, planck, triBand, underLeaves } from './lights.ts';
import { chromaticityOf, colourMatching, labOf, xyzOf } from './observer.ts';
import { spectrumOf, WAVELENGTHS_NM } from './wavelengths.ts';

const at = (nm: number) => WAVELENGTHS_NM.indexOf(nm);

describe('observer', () => {
  // CIE 1931 2 degree colour-matching functions (CIE 015:2018). The fit's authors call it close, not exact.
  test.each([
    [430, 0.2839, 0.0116, 1.3856],
    [450, 0.3362, 0.038, 1.77211],
    [500, 0.0049, 0.323, 0.272],
    [550, 0.43345, 0.99495, 0.00875],
    [600, 1.0622, 0.631, 0.0008],
    [650, 0.2835, 0.107, 0],
  ])('at %i nm', (nm, x, y, z) => {
    const fit = colourMatching(nm);
    expect(Math.abs(fit[0] - x)).toBeLessThan(0.03);
    expect(Math.abs(fit[1] - y)).toBeLessThan(0.03);
    expect(Math.abs(fit[2] - z)).toBeLessThan(0.04);
  });

  test('a grey of 18 % has L* 49.5 and no colour (CIE 015:2018, from Y = 0.184 at L* 50)', () => {
    for (const light of [D65, planck(2856), triBand('cool')]) {
      const [l, a, b] = labOf(
        spectrumOf(() => 0.184187),
        light,
      );
      expect(l).toBeCloseTo(50, 3);
      expect(a).toBeCloseTo(0, 9);
      expect(b).toBeCloseTo(0, 9);
    }
  });
});

describe('daylight', () => {
  // CIE standard illuminant D65, CIE 015:2018.
  test.each([
    [380, 49.9755],
    [450, 117.008],
    [500, 109.354],
    [560, 100],
    [600, 90.0062],
    [650, 80.0268],
    [700, 71.6091],
  ])('D65 at %i nm', (nm, power) => expect(Math.abs(D65[at(nm)]! - power)).toBeLessThan(0.05));

  // White points of the 2 degree observer, CIE 015:2018; the observer here is a fit on a 5 nm grid.
  test.each([
    ['D65', D65, 0.31272, 0.32903],
    ['D50', D50, 0.34567, 0.35851],
  ] as const)('white of %s', (_name, light, x, y) => {
    const seen = chromaticityOf(light);
    expect(Math.abs(seen[0] - x)).toBeLessThan(5e-4);
    expect(Math.abs(seen[1] - y)).toBeLessThan(5e-4);
  });

  // The locus itself, without any observer: chromaticities of D55, D65 and D75, CIE 015:2018.
  test.each([
    [5503, 0.33243, 0.34744],
    [6504, 0.31272, 0.32903],
    [7504, 0.29903, 0.31488],
  ])('locus at %i K', (cctK, x, y) => {
    const locus = daylightChromaticity(cctK);
    expect(Math.abs(locus[0] - x)).toBeLessThan(2e-4);
    expect(Math.abs(locus[1] - y)).toBeLessThan(2e-4);
  });
});

describe('lamps', () => {
  // CIE standard illuminant A, CIE 015:2018; A is Planck's law at 2855.54 K on today's scale.
  test.each([
    [380, 9.7951],
    [450, 33.0859],
    [600, 129.043],
    [700, 198.261],
  ])('A at %i nm', (nm, power) => expect(planck(2855.54)[at(nm)]! / power).toBeCloseTo(1, 3));

  test('white of A: 0.44758, 0.40745 (CIE 015:2018); the grid ends at 730 nm', () => {
    const [x, y] = chromaticityOf(planck(2855.54));
    expect(Math.abs(x - 0.44758)).toBeLessThan(0.002);
    expect(Math.abs(y - 0.40745)).toBeLessThan(0.002);
  });

  // Correlated colour temperatures of LED-B1, LED-B3, LED-B5, FL12 and FL11 as the CIE names them.
  test.each([
    [ledWhite('warm'), 2733],
    [ledWhite('neutral'), 4103],
    [ledWhite('cool'), 6598],
    [triBand('warm'), 3000],
    [triBand('cool'), 4000],
  ])('colour temperature of lamp %#', (light, cctK) => {
    expect(Math.abs(correlatedTemperatureK(light) / cctK - 1)).toBeLessThan(0.05);
  });

  test('leaves turn sky light greener', () => {
    const [sky, shade] = [underLeaves(8000, 0), underLeaves(8000, 0.3)].map((light) => chromaticityOf(light));
    expect(shade![1]).toBeGreaterThan(sky![1] + 0.01);
  });

  test('an LED leaves a brightener dark, daylight lights it', () => {
    expect(brightening(ledWhite('warm'))).toBeLessThan(0.1 * brightening(D65));
  });
});

test('no light makes a white other than white', () => {
  const white = spectrumOf(() => 1);
  for (const light of [D65, D50, ledWhite('warm'), triBand('cool')]) expect(xyzOf(white, light)[1]).toBeCloseTo(1, 12);
});
