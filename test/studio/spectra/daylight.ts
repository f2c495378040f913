/**
 * CIE daylight of any correlated colour temperature from 4000 to 25000 K.
 * Method and table: CIE 015:2018 "Colorimetry" (components S0, S1, S2; after
 * D. B. Judd, D. L. MacAdam, G. Wyszecki, J. Opt. Soc. Am. 54:1031, 1964). The table is given every 10 nm;
 * between its entries the CIE interpolates linearly.
 */
import { FIRST_NM, spectrumOf, type Spectrum } from './wavelengths.ts';

/* 380 to 730 nm every 10 nm: S0, S1, S2. */
// prettier-ignore
const COMPONENTS: readonly (readonly [number, number, number])[] = [
  [63.4, 38.5, 3.0], [65.8, 35.0, 1.2], [94.8, 43.4, -1.1], [104.8, 46.3, -0.5], [105.9, 43.9, -0.7],
  [96.8, 37.1, -1.2], [113.9, 36.7, -2.6], [125.6, 35.9, -2.9], [125.5, 32.6, -2.8], [121.3, 27.9, -2.6],
  [121.3, 24.3, -2.6], [113.5, 20.1, -1.8], [113.1, 16.2, -1.5], [110.8, 13.2, -1.3], [106.5, 8.6, -1.2],
  [108.8, 6.1, -1.0], [105.3, 4.2, -0.5], [104.4, 1.9, -0.3], [100.0, 0.0, 0.0], [96.0, -1.6, 0.2],
  [95.1, -3.5, 0.5], [89.1, -3.5, 2.1], [90.5, -5.8, 3.2], [90.3, -7.2, 4.1], [88.4, -8.6, 4.7],
  [84.0, -9.5, 5.1], [85.1, -10.9, 6.7], [81.9, -10.7, 7.3], [82.6, -12.0, 8.6], [84.9, -14.0, 9.8],
  [81.3, -13.6, 10.2], [71.9, -12.0, 8.3], [74.3, -13.3, 9.6], [76.4, -12.9, 8.5], [63.3, -10.6, 7.0],
  [71.7, -11.6, 7.6],
];

/** Chromaticity of the daylight locus at a correlated colour temperature. */
export function daylightChromaticity(cctK: number): readonly [number, number] {
  if (cctK < 4000 || cctK > 25000) throw new RangeError(`no CIE daylight at ${cctK} K`);
  const t = 1000 / cctK;
  const x =
    cctK <= 7000
      ? -4.607 * t ** 3 + 2.9678 * t ** 2 + 0.09911 * t + 0.244063
      : -2.0064 * t ** 3 + 1.9018 * t ** 2 + 0.24748 * t + 0.23704;
  return [x, -3 * x * x + 2.87 * x - 0.275];
}

/** Relative spectral power, 100 at 560 nm. */
export function daylight(cctK: number): Spectrum {
  const [x, y] = daylightChromaticity(cctK);
  const m = 0.0241 + 0.2562 * x - 0.7341 * y;
  // The CIE rounds both factors to three decimals.
  const m1 = Math.round((1000 * (-1.3515 - 1.7703 * x + 5.9114 * y)) / m) / 1000;
  const m2 = Math.round((1000 * (0.03 - 31.4424 * x + 30.0717 * y)) / m) / 1000;
  return spectrumOf((nm) => {
    const at = (nm - FIRST_NM) / 10;
    const [low, high] = [COMPONENTS[Math.floor(at)]!, COMPONENTS[Math.ceil(at)]!];
    const part = at - Math.floor(at);
    const s = ([0, 1, 2] as const).map((k) => low[k] + part * (high[k] - low[k]));
    return s[0]! + m1 * s[1]! + m2 * s[2]!;
  });
}

/** D65 is 6500 K by the older radiation constant: 6504 K now (CIE 015:2018). */
export const D65 = daylight(6504);
export const D50 = daylight(5003);
