/** From the description of a light to its spectrum. */
import { daylight } from '../spectra/daylight.ts';
import { evenly, ledWhite, mix, planck, triBand, underLeaves } from '../spectra/lights.ts';
import type { Spectrum } from '../spectra/wavelengths.ts';
import type { LightSpec } from './types.ts';

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
