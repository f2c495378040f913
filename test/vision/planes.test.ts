/** A photo is read alike from its pixels and from its planes of brightness and colour (ITU-T T.871). */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodePhoto } from '../../src/cli/decode.ts';
import { loadScale } from '../../src/cli/scales.ts';
import { ciede2000 } from '../../src/core/colour/difference.ts';
import { flatten } from '../../src/vision/flatten.ts';
import type { Photo, Pixels } from '../../src/vision/pixels.ts';
import { readPhoto } from '../../src/vision/read.ts';
import { planesFrom } from './planes.ts';

const { photos } = JSON.parse(readFileSync('sample-images/truth.json', 'utf8')) as {
  photos: { file: string; scale: string }[];
};

/** Card at 18, 7 and 15 px to the millimetre. */
const FILES = ['poolside-12-megapixel.jpg', 'small-and-cluttered.jpg', 'open-shade-terrace.jpg'];

async function sample(file: string): Promise<Pixels> {
  return (await decodePhoto(readFileSync(`sample-images/${file}`)))!;
}

describe('a photo in planes', () => {
  it.each(FILES)('gives the colours of %s within half a CIEDE2000', { tags: 'release' }, async (file) => {
    const pixels = await sample(file);
    const scale = await loadScale(photos.find((photo) => photo.file === file)!.scale);
    const padsOf = (photo: Photo) => {
      const { reading } = readPhoto(photo, scale);
      if (reading.outcome !== 'read') throw new Error(`refused: ${reading.reasons.join()}`);
      return reading.pads;
    };
    const plain = padsOf(pixels);
    for (const [across, down] of [
      [0, 0],
      [1, 0],
      [1, 1],
    ] as const) {
      const pads = padsOf(planesFrom(pixels, across, down));
      const differences = pads.map(({ lab }, i) => ciede2000(lab, plain[i]!.lab));
      expect(Math.max(...differences)).toBeLessThan(0.5);
    }
  });

  it.each([8, 20, 30])('is flattened to the same colours at %i px to the millimetre', (pxPerMm) => {
    // Slow waves of colour, so that neither neighbours nor coarse colour tell the two apart.
    const [width, height] = [1600, 1200];
    const data = new Uint8ClampedArray(4 * width * height);
    for (let i = 0; i < width * height; i++) {
      const [x, y] = [(i % width) / width, Math.floor(i / width) / height];
      data.set([60 + 150 * x, 200 - 120 * y, 90 + 100 * x * y, 255], 4 * i);
    }
    const pixels: Pixels = { data, width, height };
    // Partly outside the photo.
    const card = {
      toPhoto: (x: number, y: number) => [x * pxPerMm - 20, y * pxPerMm + 0.2 * x - 10] as const,
      pxPerMm,
    };
    const [one, other] = [flatten(pixels, card), flatten(planesFrom(pixels), card)];
    let most = 0;
    for (let i = 0; i < one.data.length; i++) most = Math.max(most, Math.abs(one.data[i]! - other.data[i]!));
    // Y, Cb and Cr are whole levels: by the formulas up to 1.8 levels of blue, and rounding.
    expect(most).toBeLessThanOrEqual(3);
  });
});
