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
  const at = (four: OverHue, c1: number, s1: number, c2: number, s2: number) =>
    four[0] * c1 + four[1] * s1 + four[2] * c2 + four[3] * s2;
  for (let i = 0; i < red.length; i++) {
    const [r, g, b] = [red[i]!, green[i]!, blue[i]!];
    const fx = cubeRoot(TO_XYZ[0][0] * r + TO_XYZ[0][1] * g + TO_XYZ[0][2] * b);
    const fy = cubeRoot(TO_XYZ[1][0] * r + TO_XYZ[1][1] * g + TO_XYZ[1][2] * b);
    const fz = cubeRoot(TO_XYZ[2][0] * r + TO_XYZ[2][1] * g + TO_XYZ[2][2] * b);
    const [a, bb] = [500 * (fx - fy), 200 * (fy - fz)];
    const chroma = Math.hypot(a, bb);
    if (chroma < 1e-3) continue;
    const [c1, s1] = [a / chroma, bb / chroma];
    const [c2, s2] = [c1 * c1 - s1 * s1, 2 * c1 * s1];
    const more = Math.exp(at(turning.vividness, c1, s1, c2, s2));
    const turn = at(turning.hue, c1, s1, c2, s2);
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const [a2, b2] = [more * (a * cos - bb * sin), more * (a * sin + bb * cos)];
    const y = fy + (at(turning.lightness, c1, s1, c2, s2) * chroma) / 116;
    const [x3, y3, z3] = [cubed(y + a2 / 500), cubed(y), cubed(y - b2 / 200)];
    red[i] = TO_RGB[0]![0]! * x3 + TO_RGB[0]![1]! * y3 + TO_RGB[0]![2]! * z3;
    green[i] = TO_RGB[1]![0]! * x3 + TO_RGB[1]![1]! * y3 + TO_RGB[1]![2]! * z3;
    blue[i] = TO_RGB[2]![0]! * x3 + TO_RGB[2]![1]! * y3 + TO_RGB[2]![2]! * z3;
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

function inverse(m: readonly (readonly number[])[]): number[][] {
  const at = (i: number, j: number) => m[(i + 3) % 3]![(j + 3) % 3]!;
  const cofactor = (i: number, j: number) => at(i + 1, j + 1) * at(i + 2, j + 2) - at(i + 1, j + 2) * at(i + 2, j + 1);
  const det = [0, 1, 2].reduce((sum, j) => sum + at(0, j) * cofactor(0, j), 0);
  return [0, 1, 2].map((i) => [0, 1, 2].map((j) => cofactor(j, i) / det));
}
