/** Greys that a printer mixes from cyan, magenta and yellow, and misses by a little. */
import { D50 } from './daylight.ts';
import { matchInInk, paperUnder, printed, type Printer } from './inks.ts';
import { labOf } from './observer.ts';
import type { Spectrum } from './wavelengths.ts';

/** By how much mixed greys miss grey: most at half coverage. */
export interface GreyCast {
  /** CIELAB chroma under D50, against a grey of black ink on the same paper. */
  readonly chroma: number;
  readonly hueDegrees: number;
}

/** A printer whose mixed greys would be what they are meant to be. */
const MIXING: Printer = {
  dotGain: 0.08,
  n: 1.5,
  blackDensity: 1.35,
  blackWarmth: 0,
  strength: [1, 1, 1],
  greys: 'composite',
};
const OFFICE_PAPER = paperUnder({ level: 0.86, yellowness: 0, brightener: 0.06 }, D50);

const mixes = new Map<string, readonly [number, number, number, number]>();

/**
 * A grey of a nominal coverage, mixed from colours; solids are printed in black ink on top, as drivers do.
 * @param printer its black; what it mixes is as light as its greys of black ink would be
 * @param paper what it is printed on, under the light of the scene
 */
export function compositeGrey(ink: number, cast: GreyCast, printer: Printer, paper: Spectrum): Spectrum {
  if (ink <= 0 || ink >= 1) return printed([0, 0, 0, ink], printer, paper);
  const key = [ink, cast.chroma, cast.hueDegrees, printer.dotGain, printer.n, printer.blackDensity].join();
  const known = mixes.get(key) ?? mix(ink, cast, printer);
  mixes.set(key, known);
  return printed(known, MIXING, paper);
}

function mix(ink: number, cast: GreyCast, printer: Printer): readonly [number, number, number, number] {
  const [l, a, b] = labOf(printed([0, 0, 0, ink], printer, OFFICE_PAPER), D50);
  const chroma = cast.chroma * 4 * ink * (1 - ink);
  const hue = (cast.hueDegrees * Math.PI) / 180;
  return matchInInk([l, a + chroma * Math.cos(hue), b + chroma * Math.sin(hue)]);
}
