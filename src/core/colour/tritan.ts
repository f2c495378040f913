/**
 * Tritanopia by Brettel, Vienot & Mollon, J. Opt. Soc. Am. A 14 (1997) 2647: a colour slides along the axis of the
 * missing short-wave cone onto one of two half planes, which hold the neutral axis and the hue of 485 or of 660 nm,
 * the two that such eyes see as others do. The neutral is the white of sRGB.
 */
import type { Triple } from './lab.ts';

type Matrix = readonly [Triple, Triple, Triple];

/** Linear sRGB to CIE XYZ, IEC 61966-2-1. */
const XYZ_FROM_RGB: Matrix = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
];

/** Cone fundamentals of Smith & Pokorny 1975 from XYZ; from memory, checked by the result (see the tests). */
const LMS_FROM_XYZ: Matrix = [
  [0.15514, 0.54312, -0.03286],
  [-0.15514, 0.45684, 0.03286],
  [0, 0, 0.01608],
];

/** CIE 1931 colour-matching functions at 485 and 660 nm; from memory, checked in the same way. */
const BLUE_ANCHOR_XYZ: Triple = [0.05795, 0.1693, 0.6162];
const RED_ANCHOR_XYZ: Triple = [0.1649, 0.061, 0];

const LMS_FROM_RGB = product(LMS_FROM_XYZ, XYZ_FROM_RGB);
const WHITE = apply(LMS_FROM_RGB, [1, 1, 1]);
const BLUE_PLANE = cross(WHITE, apply(LMS_FROM_XYZ, BLUE_ANCHOR_XYZ));
const RED_PLANE = cross(WHITE, apply(LMS_FROM_XYZ, RED_ANCHOR_XYZ));

/** Linear sRGB as a tritanope sees it, in linear sRGB; may lie outside 0 to 1. */
export function tritanopic(rgb: Triple): Triple {
  const [l, m, s] = apply(LMS_FROM_RGB, rgb);
  // The half planes meet in the neutral axis: redder than neutral (more L for its M) is the red one's.
  const plane = l * WHITE[1] > m * WHITE[0] ? RED_PLANE : BLUE_PLANE;
  const sOnPlane = -(plane[0] * l + plane[1] * m) / plane[2];
  // Only the short-wave cone's answer changes, so only its column of the inverse is needed.
  const change = (sOnPlane - s) / SHORT_WAVE.response;
  return [0, 1, 2].map((i) => rgb[i]! + change * SHORT_WAVE.direction[i]!) as unknown as Triple;
}

/** The light (in linear sRGB) that moves the short-wave cone alone, and how far it moves it. */
const SHORT_WAVE = (() => {
  const direction = cross(LMS_FROM_RGB[0], LMS_FROM_RGB[1]);
  return { direction, response: dot(LMS_FROM_RGB[2], direction) };
})();

function apply(matrix: Matrix, v: Triple): Triple {
  return [dot(matrix[0], v), dot(matrix[1], v), dot(matrix[2], v)];
}

function product(a: Matrix, b: Matrix): Matrix {
  const column = (j: 0 | 1 | 2): Triple => [b[0][j], b[1][j], b[2][j]];
  const row = (r: Triple): Triple => [dot(r, column(0)), dot(r, column(1)), dot(r, column(2))];
  return [row(a[0]), row(a[1]), row(a[2])];
}

function cross(a: Triple, b: Triple): Triple {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function dot(a: Triple, b: Triple): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
