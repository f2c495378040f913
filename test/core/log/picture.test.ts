import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { withoutMetadata } from '../../../src/core/log/picture.ts';

const plain = sharp({ create: { width: 64, height: 48, channels: 3, background: '#c96' } });

async function located(progressive: boolean): Promise<Buffer> {
  return plain
    .clone()
    .withIccProfile('p3')
    .withExif({
      IFD0: { Make: 'Hillside cameras', Copyright: 'nobody' },
      IFD3: { GPSLatitudeRef: 'N', GPSLatitude: '47/1 30/1 0/1', GPSLongitudeRef: 'E', GPSLongitude: '8/1 0/1 0/1' },
    })
    .jpeg({ progressive })
    .toBuffer();
}

const pixels = (jpeg: Uint8Array) => sharp(jpeg).raw().toBuffer();

describe('withoutMetadata', () => {
  it.each([false, true])(
    'takes place and maker off and leaves the picture as it was (progressive: %s)',
    async (progressive) => {
      const original = await located(progressive);
      expect((await sharp(original).metadata()).exif).toBeDefined();
      const clean = withoutMetadata(original)!;
      const metadata = await sharp(clean).metadata();
      expect(metadata.exif).toBeUndefined();
      expect(Buffer.from(clean).includes('Hillside')).toBe(false);
      expect(metadata.icc).toBeDefined();
      expect(await pixels(clean)).toEqual(await pixels(original));
    },
  );

  it('gives back a picture without metadata byte for byte', async () => {
    const jpeg = await plain.clone().jpeg().toBuffer();
    expect(Buffer.from(withoutMetadata(jpeg)!)).toEqual(jpeg);
  });

  it('takes off comments, other application data and what hangs behind the end', async () => {
    const jpeg = await plain.clone().jpeg().toBuffer();
    const segment = (marker: number, content: string) =>
      Buffer.concat([Buffer.from([0xff, marker, 0, content.length + 2]), Buffer.from(content)]);
    const stuffed = Buffer.concat([
      jpeg.subarray(0, 2),
      segment(0xfe, 'taken at 47 N'),
      segment(0xe1, 'http://ns.adobe.com/xap/1.0/\0GPS'),
      segment(0xe2, 'MPF\0second picture'),
      jpeg.subarray(2),
      Buffer.from('a video with its place'),
    ]);
    expect(Buffer.from(withoutMetadata(stuffed)!)).toEqual(jpeg);
  });

  it('refuses what is no JPEG or was cut off', async () => {
    const jpeg = await plain.clone().jpeg().toBuffer();
    expect(withoutMetadata(await plain.clone().png().toBuffer())).toBeNull();
    expect(withoutMetadata(new Uint8Array())).toBeNull();
    for (let length = 0; length < jpeg.length; length += 7) {
      expect(withoutMetadata(jpeg.subarray(0, length))).toBeNull();
    }
  });
});
