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

  /** ITU-T T.81, annex B: start, tables and frames, a scan with its data, end. */
  const bytes = (...parts: readonly number[][]) => new Uint8Array(parts.flat());
  const [START, END] = [
    [0xff, 0xd8],
    [0xff, 0xd9],
  ];
  const COMMENT = [0xff, 0xfe, 0, 3, 0x41];

  it('walks over a scan’s data: stuffed zeros and restart markers are part of it, other markers end it', () => {
    // B.1.1.5 and B.2.1: FF 00 stands for FF; RST0 to RST7 are FF D0 to FF D7.
    const scan = [0xff, 0xda, 0, 3, 1, 0x12, 0xff, 0, 0x34, 0xff, 0xd0, 0x56, 0xff, 0xd7, 0x78];
    // A table between scans, with bytes in it that look like a comment, and what comes just before the restart markers.
    const table = [0xff, 0xc4, 0, 5, 0xff, 0xfe, 0];
    const last = [0xff, 0xcf, 0, 2];
    const jpeg = bytes(START, scan, table, scan, last, scan, COMMENT, scan, END);
    expect(withoutMetadata(jpeg)).toEqual(bytes(START, scan, table, scan, last, scan, scan, END));
  });

  it('drops the fill bytes that any marker may follow (B.1.1.2)', () => {
    const table = [0xff, 0xdb, 0, 3, 7];
    expect(withoutMetadata(bytes(START, [0xff, 0xff], table, [0xff], END))).toEqual(bytes(START, table, END));
  });

  it('keeps APP0 (JFIF), APP14 (Adobe) and what is no application segment', () => {
    const segment = (marker: number) => [0xff, marker, 0, 3, 9];
    const kept = [0xdf, 0xe0, 0xee, 0xf0].map(segment);
    const dropped = [0xe1, 0xe2, 0xe3, 0xed, 0xef, 0xfe].map(segment);
    expect(withoutMetadata(bytes(START, ...dropped, ...kept, ...dropped, END))).toEqual(bytes(START, ...kept, END));
    const icc = (name: string) => [0xff, 0xe2, 0, 14, ...Buffer.from(name, 'latin1')];
    const [profile, other] = [icc('ICC_PROFILE\0'), icc('ICC_PROFILES')];
    expect(withoutMetadata(bytes(START, profile, other, END))).toEqual(bytes(START, profile, END));
  });

  it('refuses a wrong start, and a segment shorter than its own length', () => {
    expect(withoutMetadata(bytes(START, END))).toEqual(bytes(START, END));
    expect(withoutMetadata(bytes([0xfe, 0xd8], END))).toBeNull();
    expect(withoutMetadata(bytes([0xff, 0xd7], END))).toBeNull();
    expect(withoutMetadata(bytes(START, [0xff, 0xdb, 0, 1], END))).toBeNull();
    expect(withoutMetadata(bytes(START, [0xff, 0xdb, 0, 2], END))).toEqual(bytes(START, [0xff, 0xdb, 0, 2], END));
    expect(withoutMetadata(bytes(START, [0x41], END))).toBeNull();
  });
});
