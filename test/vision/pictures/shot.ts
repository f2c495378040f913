/** One test picture as plain data, and shots by chance. */
import type { CardVariant } from '../../../src/core/card/geometry.ts';
import type { Point } from '../../../src/core/card/homography.ts';
import type { Pixels } from '../../../src/vision/pixels.ts';
import { randomFrom } from './canvas.ts';

export interface Shot {
  readonly seed: number;
  readonly width: number;
  readonly height: number;
  /** Width of the card's outline in the picture over the picture's width; less where its height wouldn't fit. */
  readonly fill: number;
  readonly turnDegrees: number;
  readonly tiltDegrees: number;
  /** About which direction in the card's plane it is tilted. */
  readonly tiltAxisDegrees: number;
  readonly mirrored?: boolean;
  /** Gaussian, standard deviation in px. */
  readonly blurPx?: number;
  /** Standard deviation in levels of 255. */
  readonly noise?: number;
  /** Darkening from one side of the picture to the other, 0 to 1. */
  readonly shade?: number;
  /** Darkening behind a shadow's edge across the card, 0 to 1. */
  readonly shadow?: number;
  readonly light?: number;
  readonly table?: readonly [number, number, number];
  readonly clutter?: number;
  /** Radial distortion at the corner of the picture, as a share of its half diagonal. */
  readonly lens?: number;
  /** Height of the card's left and right edges above its middle, mm. */
  readonly curlMm?: number;
  /** The angle between its left and right halves, folded at its middle; the ends stand up for a positive one. */
  readonly foldDegrees?: number;
  readonly variant?: CardVariant;
  /** The print's own; left out: a card of version 1. */
  readonly mark?: number;
  /** Moves the card in the picture, as a share of the picture's size. */
  readonly shift?: Point;
  /** Rectangles on the card covered by something skin-coloured, mm: x, y, width, height. */
  readonly covers?: readonly (readonly [number, number, number, number])[];
}

export interface Photo {
  readonly pixels: Pixels;
  /** True place in the picture of a place on the card. */
  toPhoto(xMm: number, yMm: number): Point;
}

/** A scene by chance: any turn, tilt to 45 degrees, a fifth to the whole of the width, tables from black to white. */
export function randomShot(seed: number): Shot {
  const random = randomFrom(seed);
  const pick = <T>(values: readonly T[]) => values[Math.floor(random() * values.length)]!;
  const portrait = random() < 0.4;
  return {
    seed,
    width: portrait ? 768 : 1024,
    height: portrait ? 1024 : 768,
    fill: 0.25 + 0.75 * random(),
    turnDegrees: 360 * random(),
    tiltDegrees: 45 * random(),
    tiltAxisDegrees: 360 * random(),
    mirrored: random() < 0.15,
    blurPx: 0.3 + random(),
    noise: 8 * random(),
    shade: 0.5 * random(),
    shadow: random() < 0.35 ? 0.5 * random() : 0,
    light: 0.4 + 0.6 * random(),
    table: pick([
      [150, 120, 90],
      [30, 28, 26],
      [235, 235, 230],
      [90, 95, 100],
      [12, 12, 12],
    ]),
    clutter: Math.floor(25 * random()),
    lens: random() < 0.5 ? 0.05 * (random() - 0.5) : 0,
    curlMm: random() < 0.25 ? 10 * (random() - 0.5) : 0,
  };
}
