/** Photos of a card and of pads, as simple as can be: what the correction from the greys is tested with. */
import { NEUTRALS, PAPER_PATCHES, SLOT } from '../../../src/core/card/geometry.ts';
import type { Triple } from '../../../src/core/colour/lab.ts';
import type { CardSamples, PatchSample } from '../../../src/core/samples.ts';

/** A camera and a print, as simple as can be: written apart from the correction it tests. */
export interface World {
  gains: Triple;
  contrast: number;
  flare: number;
  fallX: number;
  fallY: number;
  castX: number;
  /** Light of the second order: by the square of x, the product of x and y, the square of y. */
  fallXX?: number;
  fallXY?: number;
  fallYY?: number;
  castY?: number;
  /** Red's and blue's contrast against green's. */
  channels?: Triple;
  /** Share of an S-shaped curve, 3 v^2 - 2 v^3, in the encoded value. */
  bend?: number;
  gain50: number;
  paper: number;
  black: number;
}

export const plain: World = {
  gains: [1, 1, 1],
  contrast: 1,
  flare: 0,
  fallX: 0,
  fallY: 0,
  castX: 0,
  gain50: 0.17,
  paper: 0.86,
  black: 0.05,
};

export function encode(linear: number): number {
  const x = Math.min(1, Math.max(0, linear));
  return x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055;
}

export function photograph(world: World, reflectance: Triple, xMm: number, yMm: number): Triple {
  const { fallX, fallY, castX, fallXX = 0, fallXY = 0, fallYY = 0, castY = 0, channels = [1, 1, 1], bend = 0 } = world;
  const [x, y] = [xMm / 74 - 1, yMm / 52.5 - 1];
  const light = 0.8 * Math.exp(fallX * x + fallY * y + fallXX * x * x + fallXY * x * y + fallYY * y * y);
  const redder = castX * x + castY * y;
  const cast = [1 + redder, 1, 1 - redder];
  return reflectance.map((value, c) => {
    const seen = value * light * cast[c]! * world.gains[c]! + world.flare;
    const v = encode(seen ** (world.contrast * channels[c]!));
    return v + bend * (3 * v ** 2 - 2 * v ** 3 - v);
  }) as unknown as Triple;
}

export function card(world: World): CardSamples {
  const sample = (id: string, ink: number, xMm: number, yMm: number): PatchSample => {
    const area = ink + 4 * world.gain50 * ink * (1 - ink);
    const grey = world.paper * (1 - area) + world.black * area;
    return {
      id,
      xMm,
      yMm,
      rgb: photograph(world, [grey, grey, grey], xMm, yMm),
      scatter: [0, 0, 0],
      count: 1000,
      clipped: 0,
      rejected: 0,
    };
  };
  const centre = (rect: { xMm: number; yMm: number; widthMm: number; heightMm: number }) =>
    [rect.xMm + rect.widthMm / 2, rect.yMm + rect.heightMm / 2] as const;
  return {
    version: 1,
    printMark: null,
    variant: 'colour',
    neutrals: NEUTRALS.map((patch) => sample(patch.id, patch.ink, ...centre(patch))),
    anchors: [],
    paper: PAPER_PATCHES.map((patch) => sample(patch.id, 0, ...centre(patch))),
    slot: [30, 74, 118].map((xMm, i) => sample(`s${i}`, SLOT.ink, xMm, 45)),
  };
}

/** Pale pad-like colours, linear. */
export const PADS: Triple[] = [
  [0.7, 0.45, 0.15],
  [0.55, 0.3, 0.4],
  [0.35, 0.5, 0.3],
  [0.6, 0.6, 0.62],
];
