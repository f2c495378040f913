/**
 * What a phone's own rendering does to colours beyond matrix and tone curve: it turns them by hue, makes some hues more
 * vivid or lighter than others, and not the same in every photo. A made-up form whose size was fitted to real photos of
 * a colour chart: `npm run real` and `npm run spectra` print both beside one another.
 */
import type { Random } from '../random.ts';
import type { Triple } from '../spectra/wavelengths.ts';

/** Factors of cos h, sin h, cos 2h, sin 2h over the hue angle h. */
export type OverHue = readonly [number, number, number, number];

export interface Turning {
  /** ln of chroma. */
  readonly vividness: OverHue;
  /** Radians. */
  readonly hue: OverHue;
  /** L* for each unit of chroma. */
  readonly lightness: OverHue;
}

/** One standard deviation of each factor: from photo to photo, and from phone to phone. */
const PHOTO = { vividness: 0.04, hue: 0.03, lightness: 0.03 };
const PHONE = { vividness: 0.05, hue: 0.04, lightness: 0.03 };

export function photoTurning(random: Random): Turning {
  return drawn(random, PHOTO);
}

export function phoneTurning(random: Random): Turning {
  return drawn(random, PHONE);
}

function drawn(random: Random, sigma: typeof PHOTO): Turning {
  const four = (size: number): OverHue => [
    random.about(0, size),
    random.about(0, size),
    random.about(0, size),
    random.about(0, size),
  ];
  return { vividness: four(sigma.vividness), hue: four(sigma.hue), lightness: four(sigma.lightness) };
}

export function both(one: Turning, other: Turning): Turning {
  const sum = (a: OverHue, b: OverHue) => a.map((value, i) => value + b[i]!) as unknown as OverHue;
  return {
    vividness: sum(one.vividness, other.vividness),
    hue: sum(one.hue, other.hue),
    lightness: sum(one.lightness, other.lightness),
  };
}

export function scaled(turning: Turning, size: number): Turning {
  const times = (four: OverHue) => four.map((value) => size * value) as unknown as OverHue;
  return { vividness: times(turning.vividness), hue: times(turning.hue), lightness: times(turning.lightness) };
}

/* Linear sRGB to XYZ over its own white, and back (IEC 61966-2-1): whites and greys have no chroma whatever the light. */
const TO_XYZ = [
  [0.4339, 0.3762, 0.1899],
  [0.2126, 0.7152, 0.0722],
  [0.0178, 0.1094, 0.8728],
] as const;
const TO_RGB = inverse(TO_XYZ);

/** Turns colours of linear sRGB in place: red, green and blue of one length. */
export function turnPlanes(
  [red, green, blue]: readonly [Float32Array | number[], Float32Array | number[], Float32Array | number[]],
  turning: Turning,
): void {
  const [[xr, xg, xb], [yr, yg, yb], [zr, zg, zb]] = TO_XYZ;
  const [[rx, ry, rz], [gx, gy, gz], [bx, by, bz]] = TO_RGB;
  const [v1, v2, v3, v4] = turning.vividness;
  const [h1, h2, h3, h4] = turning.hue;
  const [l1, l2, l3, l4] = turning.lightness;
  // A million times a picture: no array is made in here, and `Math.hypot` takes as long as all the rest.
  for (let i = 0; i < red.length; i++) {
    const r = red[i]!;
    const g = green[i]!;
    const b = blue[i]!;
    const fx = cubeRoot(xr * r + xg * g + xb * b);
    const fy = cubeRoot(yr * r + yg * g + yb * b);
    const fz = cubeRoot(zr * r + zg * g + zb * b);
    const a = 500 * (fx - fy);
    const bb = 200 * (fy - fz);
    const chroma = Math.sqrt(a * a + bb * bb);
    if (chroma < 1e-3) continue;
    const c1 = a / chroma;
    const s1 = bb / chroma;
    const c2 = c1 * c1 - s1 * s1;
    const s2 = 2 * c1 * s1;
    const more = Math.exp(v1 * c1 + v2 * s1 + v3 * c2 + v4 * s2);
    const turn = h1 * c1 + h2 * s1 + h3 * c2 + h4 * s2;
    const cos = Math.cos(turn);
    const sin = Math.sin(turn);
    const y = fy + ((l1 * c1 + l2 * s1 + l3 * c2 + l4 * s2) * chroma) / 116;
    const x3 = cubed(y + (more * (a * cos - bb * sin)) / 500);
    const y3 = cubed(y);
    const z3 = cubed(y - (more * (a * sin + bb * cos)) / 200);
    red[i] = rx * x3 + ry * y3 + rz * z3;
    green[i] = gx * x3 + gy * y3 + gz * z3;
    blue[i] = bx * x3 + by * y3 + bz * z3;
  }
}

export function turned([r, g, b]: Triple, turning: Turning): Triple {
  const planes: [number[], number[], number[]] = [[r], [g], [b]];
  turnPlanes(planes, turning);
  return [planes[0][0]!, planes[1][0]!, planes[2][0]!];
}

/* CIELAB's function and its inverse (CIE 015:2018), straight near black. */
const EDGE = 6 / 29;

function cubeRoot(t: number): number {
  return t > EDGE ** 3 ? Math.cbrt(t) : t / (3 * EDGE * EDGE) + 4 / 29;
}

function cubed(f: number): number {
  return f > EDGE ? f * f * f : 3 * EDGE * EDGE * (f - 4 / 29);
}

type Matrix = readonly [Triple, Triple, Triple];

function inverse(m: Matrix): Matrix {
  const at = (i: number, j: number) => m[(i + 3) % 3]![(j + 3) % 3]!;
  const cofactor = (i: number, j: number) => at(i + 1, j + 1) * at(i + 2, j + 2) - at(i + 1, j + 2) * at(i + 2, j + 1);
  const det = [0, 1, 2].reduce((sum, j) => sum + at(0, j) * cofactor(0, j), 0);
  return [0, 1, 2].map((i) => [0, 1, 2].map((j) => cofactor(j, i) / det)) as unknown as Matrix;
}
