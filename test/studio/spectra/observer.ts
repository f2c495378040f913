/**
 * The CIE 1931 2 degree observer by the multi-lobe fit of C. Wyman, P.-P. Sloan, P. Shirley,
 * "Simple Analytic Approximations to the CIE XYZ Color Matching Functions",
 * Journal of Computer Graphics Techniques 2(2):1-11, 2013, equation 4.
 */
import { overlap, spectrumOf, type Spectrum, type Triple } from './wavelengths.ts';

function lobe(nm: number, peakNm: number, below: number, above: number): number {
  const t = (nm - peakNm) / (nm < peakNm ? below : above);
  return Math.exp(-0.5 * t * t);
}

export function colourMatching(nm: number): Triple {
  return [
    1.056 * lobe(nm, 599.8, 37.9, 31.0) + 0.362 * lobe(nm, 442.0, 16.0, 26.7) - 0.065 * lobe(nm, 501.1, 20.4, 26.2),
    0.821 * lobe(nm, 568.8, 46.9, 40.5) + 0.286 * lobe(nm, 530.9, 16.3, 31.1),
    1.217 * lobe(nm, 437.0, 11.8, 36.0) + 0.681 * lobe(nm, 459.0, 26.0, 13.8),
  ];
}

const CMF = [0, 1, 2].map((c) => spectrumOf((nm) => colourMatching(nm)[c]!)) as [Spectrum, Spectrum, Spectrum];

/** XYZ of a reflectance under a light; a perfect white has Y = 1. */
export function xyzOf(reflectance: Spectrum, light: Spectrum): Triple {
  const white = overlap(light, CMF[1]);
  return [
    overlap(reflectance, light, CMF[0]) / white,
    overlap(reflectance, light, CMF[1]) / white,
    overlap(reflectance, light, CMF[2]) / white,
  ];
}

/** Chromaticity (x, y) of a light. */
export function chromaticityOf(light: Spectrum): readonly [number, number] {
  const [x, y, z] = [overlap(light, CMF[0]), overlap(light, CMF[1]), overlap(light, CMF[2])];
  return [x / (x + y + z), y / (x + y + z)];
}

/** CIELAB (CIE 015:2018) of an XYZ against a white. */
export function xyzToLab(xyz: Triple, white: Triple): Triple {
  const f = (t: number) => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29);
  const [fx, fy, fz] = [f(xyz[0] / white[0]), f(xyz[1] / white[1]), f(xyz[2] / white[2])];
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

const WHITE = spectrumOf(() => 1);

/** CIELAB of a reflectance under a light, against the perfect white under the same light. */
export function labOf(reflectance: Spectrum, light: Spectrum): Triple {
  return xyzToLab(xyzOf(reflectance, light), xyzOf(WHITE, light));
}
