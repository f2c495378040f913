/** How a phone turns sensor counts into linear sRGB: white balance and a colour matrix made for two lights. */
import { randomFrom } from '../random.ts';
import { D65 } from '../spectra/daylight.ts';
import { correlatedTemperatureK, planck } from '../spectra/lights.ts';
import { xyzOf } from '../spectra/observer.ts';
import { gaussian, overlap, sigmoid, spectrumOf, type Spectrum, type Triple } from '../spectra/wavelengths.ts';
import type { Sensor } from './sensors.ts';

export type Matrix = readonly [Triple, Triple, Triple];

const WHITE = spectrumOf(() => 1);

/** Sensor response to a radiance factor under a light, relative to a perfect white's. */
export function balanced(reflectance: Spectrum, light: Spectrum, sensor: Sensor, white: Triple): Triple {
  return [
    overlap(reflectance, light, sensor[0]) / white[0],
    overlap(reflectance, light, sensor[1]) / white[1],
    overlap(reflectance, light, sensor[2]) / white[2],
  ];
}

/** Sensor response to the perfect white under a light. */
export function whiteResponse(light: Spectrum, sensor: Sensor): Triple {
  return [overlap(WHITE, light, sensor[0]), overlap(WHITE, light, sensor[1]), overlap(WHITE, light, sensor[2])];
}

/** Smooth reflectances such as things about us have: a maker fits its matrix to something like them. */
const TRAINING: readonly Spectrum[] = (() => {
  const random = randomFrom(20240607);
  return Array.from({ length: 90 }, () => {
    const base = random.between(0.03, 0.5);
    const step = random.between(-0.5, 0.6);
    const stepNm = random.between(440, 640);
    const stepWidthNm = random.between(8, 30);
    const bump = random.between(-0.3, 0.45);
    const bumpNm = random.between(420, 660);
    const bumpWidthNm = random.between(25, 70);
    return spectrumOf((nm) => {
      const value = base + step * sigmoid(nm, stepNm, stepWidthNm) + bump * gaussian(nm, bumpNm, bumpWidthNm);
      return Math.min(0.92, Math.max(0.02, value));
    });
  });
})();

/** Bradford cone responses (K. M. Lam, 1985; ICC.1:2022 annex E). */
const BRADFORD: Matrix = [
  [0.8951, 0.2664, -0.1614],
  [-0.7502, 1.7135, 0.0367],
  [0.0389, -0.0685, 1.0296],
];

/** XYZ to linear sRGB, IEC 61966-2-1. */
const TO_SRGB: Matrix = [
  [3.2406, -1.5372, -0.4986],
  [-0.9689, 1.8758, 0.0415],
  [0.0557, -0.204, 1.057],
];

const SRGB_WHITE: Triple = [0.9505, 1, 1.089];

export function times(matrix: Matrix, v: Triple): Triple {
  const row = (r: Triple) => r[0] * v[0] + r[1] * v[1] + r[2] * v[2];
  return [row(matrix[0]), row(matrix[1]), row(matrix[2])];
}

/** The linear sRGB a maker aims at: XYZ under the light, adapted to D65. */
export function wantedSrgb(reflectance: Spectrum, light: Spectrum): Triple {
  const from = times(BRADFORD, xyzOf(WHITE, light));
  const to = times(BRADFORD, SRGB_WHITE);
  const cone = times(BRADFORD, xyzOf(reflectance, light));
  const adapted: Triple = [(cone[0] * to[0]) / from[0], (cone[1] * to[1]) / from[1], (cone[2] * to[2]) / from[2]];
  return times(TO_SRGB, times(INVERSE_BRADFORD, adapted));
}

/** Inverse of BRADFORD as printed beside it in ICC.1:2022. */
const INVERSE_BRADFORD: Matrix = [
  [0.9869929, -0.1470543, 0.1599627],
  [0.4323053, 0.5183603, 0.0492912],
  [-0.0085287, 0.0400428, 0.9684867],
];

/** Least squares over the training set, held so that white stays white. */
function fitMatrix(light: Spectrum, sensor: Sensor): Matrix {
  const white = whiteResponse(light, sensor);
  const seen = TRAINING.map((reflectance) => balanced(reflectance, light, sensor, white));
  const wanted = TRAINING.map((reflectance) => wantedSrgb(reflectance, light));
  const row = (c: 0 | 1 | 2): Triple => {
    let [aa, ab, bb, ay, by] = [0, 0, 0, 0, 0];
    seen.forEach(([r, g, b], i) => {
      const [one, two, y] = [r - g, b - g, wanted[i]![c] - g];
      // Errors of dark colours are seen as easily as those of light ones.
      const weight = 1 / (0.02 + g) ** 1.3;
      aa += weight * one * one;
      ab += weight * one * two;
      bb += weight * two * two;
      ay += weight * one * y;
      by += weight * two * y;
    });
    const det = aa * bb - ab * ab;
    const [red, blue] = [(ay * bb - by * ab) / det, (by * aa - ay * ab) / det];
    return [red, 1 - red - blue, blue];
  };
  return [row(0), row(1), row(2)];
}

const WARM = planck(2856);

export interface ColourProfile {
  /** Matrix for a light of a correlated colour temperature, between the two it was made for. */
  matrixAt(cctK: number): Matrix;
}

export function profileFor(sensor: Sensor): ColourProfile {
  const [warm, day] = [fitMatrix(WARM, sensor), fitMatrix(D65, sensor)];
  return {
    matrixAt: (cctK) => {
      const at = (1 / cctK - 1 / 2856) / (1 / 6504 - 1 / 2856);
      const share = Math.min(1, Math.max(0, at));
      return blend(warm, day, share);
    },
  };
}

function blend(one: Matrix, two: Matrix, share: number): Matrix {
  const mixed = one.map((row, i) => row.map((value, k) => value + share * (two[i]![k]! - value)));
  return mixed as unknown as Matrix;
}

/** Makes colours more (over 1) or less (under 1) vivid about their luminance. */
export function vivid(matrix: Matrix, saturation: number): Matrix {
  const luma: Triple = [0.2126, 0.7152, 0.0722];
  const grey = [0, 1, 2].map((k) => luma.reduce((sum, weight, c) => sum + weight * matrix[c]![k]!, 0));
  const mixed = matrix.map((row) => row.map((value, k) => grey[k]! + saturation * (value - grey[k]!)));
  return mixed as unknown as Matrix;
}

export function temperatureOf(light: Spectrum): number {
  return Math.min(12_000, Math.max(2000, correlatedTemperatureK(light)));
}
