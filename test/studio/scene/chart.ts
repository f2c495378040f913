/** A printed colour chart as a texture of material colours: press inks that match the wet pads only to the eye. */
import { layoutOf } from '../charts/layout.ts';
import { D50 } from '../spectra/daylight.ts';
import { paperUnder, printed, separate, spotInk, type Coverage, type Printer } from '../spectra/inks.ts';
import { labOf } from '../spectra/observer.ts';
import { developed } from '../strips/strips.ts';
import { makeNoise } from './noise.ts';
import type { Palette } from './palette.ts';
import { add, coverBoxes, eachTexel, newTexture, roughen, type Colour, type Texture } from './texture.ts';
import { coverTexts } from './type.ts';
import type { LaidChart } from './types.ts';

const BARE: Coverage = [0, 0, 0, 0];
/** The press that prints the label's tint and type. */
const PRESS: Printer = {
  dotGain: 0.08,
  n: 1.5,
  blackDensity: 1.4,
  blackWarmth: 0,
  strength: [1, 1, 1],
  greys: 'black',
};

/** Its place (0, 0) is the chart's middle. */
export async function paintChart(chart: LaidChart, palette: Palette, pxPerMm: number, seed: number): Promise<Texture> {
  const { widthMm, heightMm, rows, texts } = layoutOf(chart);
  const ink = (coverage: Coverage): Colour =>
    palette.colourOf((light) => printed(coverage, PRESS, paperUnder(chart.stock, light)));
  const area = { x0Mm: -widthMm / 2, y0Mm: -heightMm / 2, widthMm, heightMm };
  const texture = newTexture(area, pxPerMm, ink(chart.tint ? separate(chart.tint) : BARE));
  for (const { pad, blocks } of rows) {
    for (const { value, uMm, vMm } of blocks) {
      const box = {
        xMm: uMm - chart.block.widthMm / 2,
        yMm: vMm - chart.block.heightMm / 2,
        widthMm: chart.block.widthMm,
        heightMm: chart.block.heightMm,
      };
      const lab = labOf(developed(pad, value), D50);
      const colour = palette.colourOf((light) => spotInk(lab, paperUnder(chart.stock, light)));
      coverBoxes(texture, [box], colour);
    }
  }
  await coverTexts(texture, texts, ink([0, 0, 0, 1]));
  roughen(texture, chart.mottle, makeNoise(seed));
  for (const spot of chart.glare) {
    const shape = { xMm: spot.uMm, yMm: spot.vMm, widthMm: 0.1, heightMm: 0.1, turnDegrees: 0, radiusMm: 0.05 };
    eachTexel(texture, shape, 2.5 * spot.sizeMm, (index, u, v) => {
      add(texture, index, palette.white, spot.strength * Math.exp(-2 * ((u * u + v * v) / spot.sizeMm ** 2)));
    });
  }
  return texture;
}
