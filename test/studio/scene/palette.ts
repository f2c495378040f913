/** Spectral work, done once a scene: what each material looks like to the scene's camera under its lights. */
import { balanced, profileFor, temperatureOf, vivid, whiteResponse, type Matrix } from '../camera/colour.ts';
import { sensorOf } from '../camera/sensors.ts';
import { hashText, randomFrom } from '../random.ts';
import { mix } from '../spectra/lights.ts';
import { gaussian, sigmoid, spectrumOf, type Spectrum, type Triple } from '../spectra/wavelengths.ts';
import { spectrumOfLight } from './light.ts';
import type { Colour } from './texture.ts';
import type { Camera, Illumination } from './types.ts';

export interface Palette {
  /** Colour of a material; a function where the light itself matters, as for brightened paper. */
  colourOf(material: Spectrum | ((light: Spectrum) => Spectrum)): Colour;
  /** The perfect white, or light thrown back by a wet surface. */
  readonly white: Colour;
  readonly matrix: Matrix;
  /** What the balance multiplied each channel by, green 1: tells how noisy a channel is. */
  readonly gains: Triple;
}

/** The phone balances on the light it believes in: the mean over the card, out by its error. */
export function paletteFor(illumination: Illumination, camera: Camera): Palette {
  const sensor = sensorOf(camera.family, randomFrom(hashText(camera.family, camera.unit)));
  const main = spectrumOfLight(illumination.main);
  const second = illumination.second;
  const lights = second ? [main, spectrumOfLight(second.light)] : [main];
  const believed = second ? mix(main, lights[1]!, second.share) : main;
  const white = whiteResponse(believed, sensor);
  const scaled: Triple = [white[0] / camera.whiteBalance[0], white[1], white[2] / camera.whiteBalance[1]];
  const colourOf: Palette['colourOf'] = (material) =>
    lights.flatMap((light) =>
      balanced(typeof material === 'function' ? material(light) : material, light, sensor, scaled),
    );
  const matrix = profileFor(sensor).matrixAt(temperatureOf(believed));
  return {
    colourOf,
    white: colourOf(spectrumOf(() => 1)),
    matrix: vivid(matrix, camera.saturation),
    gains: [scaled[1] / scaled[0], 1, scaled[1] / scaled[2]],
  };
}

/** A smooth reflectance that looks about like an sRGB colour: for tables and clutter, where truth doesn't matter. */
export function reflectanceLike(srgb: Triple): Spectrum {
  const [r, g, b] = srgb.map((v) => Math.min(0.9, Math.max(0.015, v ** 2.2)));
  return spectrumOf((nm) => {
    const blue = 1 - sigmoid(nm, 492, 11);
    const red = sigmoid(nm, 588, 11);
    return b! * blue + r! * red + g! * Math.max(0, 1 - blue - red) + 0.02 * g! * gaussian(nm, 540, 40);
  });
}
