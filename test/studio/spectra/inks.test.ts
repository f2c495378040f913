/** Halftones against the published equations, worked by hand. */
import { describe, expect, test } from 'vitest';
import { D50 } from './daylight.ts';
import { grownDots, matchInInk, paperUnder, printed, separate, type Printer } from './inks.ts';
import { labOf } from './observer.ts';
import { spectrumOf, WAVELENGTHS_NM } from './wavelengths.ts';

const at560 = WAVELENGTHS_NM.indexOf(560);
const paper = spectrumOf(() => 0.8);
/** Solid black of reflectance 0.05 on that paper: density log10(0.8 / 0.05). */
const ideal: Printer = {
  dotGain: 0,
  n: 1,
  blackDensity: Math.log10(16),
  blackWarmth: 0,
  strength: [1, 1, 1],
  greys: 'black',
};
const black = (ink: number, printer: Printer) => printed([0, 0, 0, ink], printer, paper)[at560]!;

describe('one ink', () => {
  // Murray & Davies 1936: R = (1 - a) Rp + a Rk.
  test.each([
    [0, 0.8],
    [0.25, 0.6125],
    [0.5, 0.425],
    [1, 0.05],
  ])('Murray-Davies at %f', (ink, reflectance) => expect(black(ink, ideal)).toBeCloseTo(reflectance, 10));

  // Yule & Nielsen 1951 with n = 2: R = ((1 - a) sqrt(Rp) + a sqrt(Rk))²; (0.894427 + 0.223607) / 2 = 0.559017.
  test('Yule-Nielsen at one half', () => expect(black(0.5, { ...ideal, n: 2 })).toBeCloseTo(0.3125, 6));

  test('dots grow most at one half, not at the ends', () => {
    expect(grownDots(0, 0.15)).toBe(0);
    expect(grownDots(0.5, 0.15)).toBeCloseTo(0.65, 12);
    expect(grownDots(1, 0.15)).toBe(1);
  });

  // Tone value increase of home and office printers, 12 to 25 % at half coverage: common practice, no source.
  test.each([
    [0.03, 1.4],
    [0.08, 1.5],
    [0.13, 1.7],
  ])('apparent gain with growth %f and n %f is like a real printer’s', (dotGain, n) => {
    const apparent = (0.8 - black(0.5, { ...ideal, dotGain, n })) / 0.75;
    expect(apparent).toBeGreaterThan(0.6);
    expect(apparent).toBeLessThan(0.78);
  });
});

describe('colour inks', () => {
  const printer: Printer = { ...ideal, dotGain: 0.08, n: 1.5, blackDensity: 1.35 };
  const office = paperUnder({ level: 0.86, yellowness: 0, brightener: 0.06 }, D50);
  const hue = (coverage: readonly [number, number, number, number]) => {
    const [, a, b] = labOf(printed(coverage, printer, office), D50);
    return ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  };

  // Hue angles of process inks on coated paper, ISO 12647-2:2013: cyan 233, magenta 357, yellow 93 degrees (from memory, unverified).
  test('solids have the hues of process inks, within 15 degrees', () => {
    expect(Math.abs(hue([1, 0, 0, 0]) - 233)).toBeLessThan(15);
    expect(Math.min(hue([0, 1, 0, 0]), Math.abs(hue([0, 1, 0, 0]) - 357))).toBeLessThan(15);
    expect(Math.abs(hue([0, 0, 1, 0]) - 93)).toBeLessThan(15);
  });

  test('a separated colour prints as that colour', () => {
    const lab = labOf(printed(separate([0.87, 0.66, 0.86]), printer, office), D50);
    const reversed = matchInInk(lab);
    separate([0.87, 0.66, 0.86]).forEach((ink, i) => expect(reversed[i]).toBeCloseTo(ink, 2));
  });
});
