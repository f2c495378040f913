/** A measured camera's photo of reflectances beside the card, as the card's greys correct it. */
import { NEUTRALS, PAPER_PATCHES, type Rect, SLOT } from '../../../src/core/card/geometry.ts';
import { encodeSrgb, type Triple } from '../../../src/core/colour/lab.ts';
import { fitNeutrals } from '../../../src/core/colour/neutrals.ts';
import type { PatchSample } from '../../../src/core/samples.ts';
import { balanced, whiteResponse } from '../../studio/camera/colour.ts';
import type { Sensor } from '../../studio/camera/sensors.ts';
import { grownDots } from '../../studio/spectra/inks.ts';
import { evenly } from '../../studio/spectra/lights.ts';
import { type Spectrum, spectrumOf } from '../../studio/spectra/wavelengths.ts';

/** An ideal print: paper and black without a hue, Murray-Davies between them. */
const [PAPER, BLACK, DOT_GAIN] = [0.86, 0.05, 0.18];
const EXPOSURE = 0.8;

/** @returns linear sRGB reflectances, one for each; the camera's white balance is left to the greys */
export function photoThrough(sensor: Sensor, lightSpectrum: Spectrum, reflectances: readonly Spectrum[]): Triple[] {
  const light = evenly(lightSpectrum);
  const green = whiteResponse(light, sensor)[1];
  const brightest = Math.max(...whiteResponse(light, sensor)) / green;
  const see = (reflectance: Spectrum): Triple => {
    const raw = balanced(reflectance, light, sensor, [green, green, green]);
    return raw.map((value) => encodeSrgb((EXPOSURE * value) / brightest)) as unknown as Triple;
  };
  const patch = ({ id, xMm, yMm, widthMm, heightMm }: Rect, ink: number): PatchSample => {
    const area = grownDots(ink, DOT_GAIN);
    const grey = PAPER * (1 - area) + BLACK * area;
    return {
      id,
      xMm: xMm + widthMm / 2,
      yMm: yMm + heightMm / 2,
      rgb: see(spectrumOf(() => grey)),
      scatter: [0, 0, 0],
      count: 1000,
      clipped: 0,
      rejected: 0,
    };
  };
  const correction = fitNeutrals({
    version: 1,
    printMark: null,
    variant: 'black',
    neutrals: NEUTRALS.map((neutral) => patch(neutral, neutral.ink)),
    anchors: [],
    paper: PAPER_PATCHES.map((paper) => patch(paper, 0)),
    slot: [patch(SLOT, SLOT.ink)],
  });
  return reflectances.map((reflectance) => correction.toLinear(see(reflectance), 74, 52.5));
}
