/** What gets between the card and the camera: fingers, mirrored light; and water in the paper. */
import { makeNoise } from './noise.ts';
import { reflectanceLike, type Palette } from './palette.ts';
import { add, cover, eachTexel, edgeShare, multiply, smoothstep, type Texture, type Turned } from './texture.ts';
import { shadowOf } from './clutter.ts';
import type { Cover, Illumination, WetPatch } from './types.ts';

const FINGER = { widthMm: 70, heightMm: 17, srgb: [0.78, 0.57, 0.47] } as const;

/** @param texture the card's or the table's: a finger lies over both */
export function layCovers(
  texture: Texture,
  covers: readonly Cover[],
  light: Illumination,
  palette: Palette,
  isCard: boolean,
): void {
  for (const one of covers) {
    if (one.kind === 'finger') layFinger(texture, one, light, palette);
    else if (isCard) layGlare(texture, one, palette);
  }
}

/** The tip lies at the cover's place; the finger comes from the direction it is turned to. */
function layFinger(
  texture: Texture,
  { xMm, yMm, turnDegrees }: Extract<Cover, { kind: 'finger' }>,
  light: Illumination,
  palette: Palette,
): void {
  const turn = (turnDegrees * Math.PI) / 180;
  const back = FINGER.widthMm / 2 - FINGER.heightMm / 2;
  const shape: Turned = {
    xMm: xMm + back * Math.cos(turn),
    yMm: yMm + back * Math.sin(turn),
    widthMm: FINGER.widthMm,
    heightMm: FINGER.heightMm,
    turnDegrees,
    radiusMm: FINGER.heightMm / 2,
  };
  shadowOf(texture, shape, light, 6);
  const skin = palette.colourOf(reflectanceLike(FINGER.srgb));
  eachTexel(texture, shape, 1, (index, _u, _v, depthMm) => {
    const share = edgeShare(texture, depthMm);
    if (share === 0) return;
    cover(texture, index, skin, share);
    multiply(texture, index, 1 - share * 0.45 * (1 - smoothstep(depthMm, 0, 6)));
  });
}

function layGlare(
  texture: Texture,
  { xMm, yMm, sizeMm, strength }: Extract<Cover, { kind: 'glare' }>,
  palette: Palette,
): void {
  const shape: Turned = { xMm, yMm, widthMm: 0.1, heightMm: 0.1, turnDegrees: 0, radiusMm: 0.05 };
  eachTexel(texture, shape, 2 * sizeMm, (index, u, v) => {
    const distance = Math.hypot(u, v) / sizeMm;
    add(texture, index, palette.white, strength * Math.exp(-2 * distance ** 4));
  });
}

/** Chance that light coming back up from below the film is thrown down again; loss at the film's own surface. */
const RETURNED = 0.5;
const MIRRORED = 0.02;

/**
 * Wet paper is darker because part of the light is thrown back into it at the water's surface: absorbed share
 * (1 - r) a / (1 - p (1 - a)), after J. Lekner & M. C. Dorf, Appl. Opt. 27:1278, 1988; p and r from memory,
 * unverified.
 */
export function wetten(texture: Texture, patches: readonly WetPatch[], palette: Palette, seed: number): void {
  const noise = makeNoise(seed);
  for (const { xMm, yMm, sizeMm } of patches) {
    const shape: Turned = { xMm, yMm, widthMm: 0.1, heightMm: 0.1, turnDegrees: 0, radiusMm: 0.05 };
    eachTexel(texture, shape, 1.6 * sizeMm, (index, u, v) => {
      const edge = sizeMm * (1 + 0.35 * noise(u / 9 + 20, v / 9));
      const share = smoothstep(edge - Math.hypot(u, v), -0.4, 1.2);
      if (share === 0) return;
      for (let c = 0; c < texture.channels; c++) {
        const at = index * texture.channels + c;
        const absorbed = 1 - Math.min(0.98, texture.data[at]! / palette.white[c]!);
        const wet = 1 - ((1 - MIRRORED) * absorbed) / (1 - RETURNED * (1 - absorbed));
        texture.data[at] = texture.data[at]! + share * (wet * palette.white[c]! - texture.data[at]!);
      }
    });
  }
}
