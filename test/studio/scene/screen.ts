/** A screen that shows a photo: light of its own in three colours, from pixels in rows. */
import type { Picture } from '../camera/develop.ts';
import { D65 } from '../spectra/daylight.ts';
import { evenly } from '../spectra/lights.ts';
import { xyzOf } from '../spectra/observer.ts';
import { gaussian, spectrumOf, type Spectrum, type Triple } from '../spectra/wavelengths.ts';
import type { Palette } from './palette.ts';
import type { ScreenSpec } from './types.ts';
import type { Projection } from './view.ts';

export interface Screen {
  /**
   * What the balanced sensor sees of the screen at a place on the card's plane, red, green and blue into `into`.
   * @param light how much of the room's light falls there
   * @returns false beside the screen
   */
  at(xMm: number, yMm: number, light: number, into: Float64Array): boolean;
}

/* Peaks and widths of the three colours; invented, of the kind that white LEDs behind filters and organic LEDs show. */
const PRIMARIES: Readonly<Record<ScreenSpec['kind'], readonly Spectrum[]>> = {
  lcd: [
    spectrumOf((nm) => gaussian(nm, 620, 28) + 0.25 * gaussian(nm, 590, 15)),
    spectrumOf((nm) => gaussian(nm, 540, 27)),
    spectrumOf((nm) => gaussian(nm, 450, 10)),
  ],
  oled: [
    spectrumOf((nm) => gaussian(nm, 622, 15)),
    spectrumOf((nm) => gaussian(nm, 528, 15)),
    spectrumOf((nm) => gaussian(nm, 458, 9)),
  ],
};

/** Width over pitch of what glows of each colour, along and across its row. */
const GLOWS: Readonly<Record<ScreenSpec['kind'], readonly [number, number]>> = { lcd: [0.27, 0.82], oled: [0.22, 0.5] };
/** Optical blur of the lens before the sensor's pixels catch the light, px. */
const LENS_PX = 0.35;
const ORDERS = 3;
const [MIDDLE_X, MIDDLE_Y] = [74, 52.5];

export function screenOf(spec: ScreenSpec, shown: Picture, palette: Palette, projection: Projection): Screen {
  const heightMm = (spec.widthMm * shown.height) / shown.width;
  const glow = glowing(spec.kind, palette).map((colour) => colour.map((value) => value * spec.white * 0.87));
  const room = palette.white.slice(0, 3).map((value) => value * spec.reflection);
  const linear = Float64Array.from({ length: 256 }, (_, level) => spec.black + (1 - spec.black) * (level / 255) ** 2.2);
  const pattern = patternOf(spec, 1 / projection.pxPerMm);
  const bright = new Float64Array(3);
  return {
    at: (xMm, yMm, light, into) => {
      const x = ((xMm - MIDDLE_X) / spec.widthMm + 0.5) * shown.width;
      const y = ((yMm - MIDDLE_Y) / heightMm + 0.5) * shown.height;
      if (x < 0 || y < 0 || x >= shown.width || y >= shown.height) return false;
      pattern(xMm, yMm, bright);
      const at = pixelAt(shown, x, y);
      for (let c = 0; c < 3; c++) into[c] = room[c]! * light;
      for (let k = 0; k < 3; k++) {
        const light = linear[shown.data[at + k]!]! * bright[k]!;
        for (let c = 0; c < 3; c++) into[c]! += glow[k]![c]! * light;
      }
      return true;
    },
  };
}

function pixelAt({ width, height }: Picture, x: number, y: number): number {
  return (Math.min(height - 1, Math.floor(y)) * width + Math.min(width - 1, Math.floor(x))) * 4;
}

/** What the sensor sees of each colour in full, so balanced that together they look like D65's white. */
function glowing(kind: ScreenSpec['kind'], palette: Palette): number[][] {
  const spectra = PRIMARIES[kind].map(evenly);
  const one = spectrumOf(() => 1);
  const white = xyzOf(one, evenly(D65));
  const columns = spectra.map((spectrum) => xyzOf(one, spectrum));
  const amounts = solve(columns, white);
  return spectra.map((spectrum, k) =>
    palette.colourOf((light) => spectrum.map((power, i) => (amounts[k]! * power) / light[i]!)).slice(0, 3),
  );
}

/** Amounts of three colours that add up to a fourth (Cramer). */
function solve([a, b, c]: readonly Triple[], white: Triple): Triple {
  const det = (p: Triple, q: Triple, r: Triple) =>
    p[0] * (q[1] * r[2] - q[2] * r[1]) - q[0] * (p[1] * r[2] - p[2] * r[1]) + r[0] * (p[1] * q[2] - p[2] * q[1]);
  const whole = det(a!, b!, c!);
  return [det(white, b!, c!) / whole, det(a!, white, c!) / whole, det(a!, b!, white) / whole];
}

/**
 * Brightness of each colour's stripes as a pixel of the sensor gathers it, mean 1: the first orders of their Fourier
 * series, each weakened by lens and pixel; what is finer than the pixels comes out as moiré, as in a camera.
 */
function patternOf({ kind, pitchMm }: ScreenSpec, pixelMm: number) {
  const [along, across] = GLOWS[kind].map((share) =>
    Array.from({ length: ORDERS }, (_, i) => {
      const order = i + 1;
      const perMm = order / pitchMm;
      const lens = Math.exp(-2 * (Math.PI * LENS_PX * pixelMm * perMm) ** 2);
      return 2 * sinc(order * share) * lens * sinc(pixelMm * perMm);
    }),
  ) as [number[], number[]];
  const wave = (weights: readonly number[], turns: number) =>
    weights.reduce((sum, weight, i) => sum + weight * Math.cos(2 * Math.PI * (i + 1) * turns), 1);
  return (xMm: number, yMm: number, into: Float64Array) => {
    const rows = wave(across, yMm / pitchMm);
    for (let k = 0; k < 3; k++) into[k] = rows * wave(along, xMm / pitchMm - (k - 1) / 3);
  };
}

function sinc(x: number): number {
  return x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
}
