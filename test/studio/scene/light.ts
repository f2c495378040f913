/** From the description of a light to its spectrum. */
import { daylight } from '../spectra/daylight.ts';
import { evenly, ledWhite, mix, planck, triBand, underLeaves } from '../spectra/lights.ts';
import type { Spectrum } from '../spectra/wavelengths.ts';
import type { Illumination, LightSpec } from './types.ts';

/** Scaled to luminance 1. */
export function spectrumOfLight(light: LightSpec): Spectrum {
  switch (light.kind) {
    case 'daylight':
      return evenly(daylight(light.cctK));
    case 'leaves':
      return evenly(underLeaves(light.cctK, light.share));
    case 'planck':
      return evenly(planck(light.temperatureK));
    case 'led':
      return evenly(ledWhite(light.tone, light.shiftNm));
    case 'tri-band':
      return evenly(triBand(light.tone));
    case 'mixed':
      return mix(spectrumOfLight(light.one), spectrumOfLight(light.two), light.shareOfTwo);
  }
}

/** Height of the main light where it casts shadows, degrees. */
const ELEVATION = (50 * Math.PI) / 180;

/**
 * Light on a surface tilted towards a direction on the card, against that on a level one: a share from the whole sky,
 * the rest from one side.
 */
export function lightOnTilted(
  { fromDegrees, softness }: Illumination,
  acrossDegrees: number,
): (angle: number) => number {
  const side = Math.cos(((fromDegrees - acrossDegrees) * Math.PI) / 180);
  const direct = 0.6 * softness;
  return (angle) => {
    const sky = (1 + Math.cos(angle)) / 2;
    const towards = Math.cos(angle) * Math.sin(ELEVATION) + Math.sin(angle) * side * Math.cos(ELEVATION);
    return (1 - direct) * sky + (direct * Math.max(0, towards)) / Math.sin(ELEVATION);
  };
}
