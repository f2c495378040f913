/** Tone curves: linear light 0 to 1 in, encoded value 0 to 1 out. All rise. */

export type ToneName = 'plain' | 'gentle' | 'contrasty' | 'bright' | 'filmic';

export const TONE_NAMES: readonly ToneName[] = ['plain', 'gentle', 'contrasty', 'bright', 'filmic'];

/** The sRGB encoding of IEC 61966-2-1. */
export function encodeSrgb(linear: number): number {
  return linear <= 0.0031308 ? 12.92 * Math.max(0, linear) : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** S-shape of a given strength on encoded values: darker shadows, lighter highlights. */
function bend(v: number, strength: number): number {
  return v + strength * (v * v * (3 - 2 * v) - v);
}

/** Lifts the middle and rolls the highlights off. */
function shoulder(linear: number, lift: number): number {
  return (linear * (1 + lift)) / (1 + lift * linear);
}

const CURVES: Readonly<Record<ToneName, (linear: number) => number>> = {
  plain: encodeSrgb,
  gentle: (linear) => bend(encodeSrgb(linear), 0.25),
  contrasty: (linear) => bend(encodeSrgb(linear), 0.6),
  bright: (linear) => bend(encodeSrgb(shoulder(linear, 0.7)), 0.3),
  filmic: (linear) => bend(encodeSrgb(shoulder(linear, 1.2)), 0.55),
};

export function toneCurve(name: ToneName): (linear: number) => number {
  return CURVES[name];
}
