/**
 * Between encoded sRGB, linear sRGB and CIELAB under D65 (2 degree observer).
 * Triples throughout; encoded and linear RGB are 0 to 1.
 */
import { converter, modeLab65, modeLrgb, modeRgb, useMode } from 'culori/fn';

useMode(modeRgb);
useMode(modeLrgb);
useMode(modeLab65);

const lrgbToLab65 = converter('lab65');
const toRgb = converter('rgb');
const toLrgb = converter('lrgb');

export type Triple = readonly [number, number, number];

/** The sRGB decoding curve of IEC 61966-2-1, one channel. */
export function decodeSrgb(encoded: number): number {
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
}

/** Its inverse, one channel. */
export function encodeSrgb(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * linear : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** Linear sRGB (1 = a perfect white under D65) to Lab D65. */
export function linearToLab([r, g, b]: Triple): Triple {
  const lab = lrgbToLab65({ mode: 'lrgb', r, g, b });
  return [lab.l, lab.a, lab.b];
}

/** Lab D65 to linear sRGB; may lie outside 0 to 1. */
export function labToLinear([l, a, b]: Triple): Triple {
  const { r, g, b: blue } = toLrgb({ mode: 'lab65', l, a, b });
  return [r, g, blue];
}

/** Lab D65 to encoded sRGB, clipped to what a screen can show. */
export function labToSrgb([l, a, b]: Triple): Triple {
  const { r, g, b: blue } = toRgb({ mode: 'lab65', l, a, b });
  return [clip(r), clip(g), clip(blue)];
}

function clip(x: number): number {
  return Math.min(1, Math.max(0, x));
}
