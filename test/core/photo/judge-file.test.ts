import sharp, { type Sharp } from 'sharp';
import { describe, expect, it } from 'vitest';
import type { PhotoFailure } from '../../../src/core/photo/failure.ts';
import { type FileJudgement, judgeFile } from '../../../src/core/photo/judge-file.ts';
import { PHOTO_FAILURES } from '../../../src/core/photo/failure.ts';
import { randomFrom } from '../../vision/pictures.ts';
import { bombPng } from './files.ts';

const WIDTH = 400;
const HEIGHT = 300;
const picture = sharp({
  create: {
    width: WIDTH,
    height: HEIGHT,
    channels: 3,
    background: '#357',
    noise: { type: 'gaussian', mean: 128, sigma: 30 },
  },
});
const jpeg = await picture.clone().jpeg().toBuffer();
const png = await picture.clone().png().toBuffer();
const webp = await picture.clone().webp().toBuffer();
const avif = await picture.clone().avif({ effort: 0 }).toBuffer();

function judge(bytes: Uint8Array): Promise<FileJudgement> {
  return judgeFile({ size: bytes.length, read: (from, to) => Promise.resolve(bytes.subarray(from, to)) });
}

function bytesOf(made: Sharp | Buffer): Promise<Buffer> {
  return Buffer.isBuffer(made) ? Promise.resolve(made) : made.toBuffer();
}

const refused = (failure: PhotoFailure) => ({ ok: false, failure });

/** ISO/IEC 14496-12 boxes of an AVIF of 400 x 300 that names its colours by ITU-T H.273. */
function headerOfAvif(transfer: number): Buffer {
  const box = (type: string, ...content: Buffer[]) => {
    const head = Buffer.alloc(8);
    head.writeUInt32BE(8 + content.reduce((sum, { length }) => sum + length, 0));
    head.write(type, 4);
    return Buffer.concat([head, ...content]);
  };
  const version = Buffer.alloc(4);
  const size = box('ispe', version, Buffer.from([0, 0, WIDTH >> 8, WIDTH & 255, 0, 0, HEIGHT >> 8, HEIGHT & 255]));
  const colour = box('colr', Buffer.from('nclx'), Buffer.from([0, 9, 0, transfer, 0, 9, 0x80]));
  const meta = box('meta', version, box('iprp', box('ipco', size, colour)));
  return Buffer.concat([box('ftyp', Buffer.from('avif\0\0\0\0avifmif1')), meta]);
}

describe('the header of a photo', () => {
  it.each([
    ['baseline JPEG', jpeg],
    ['progressive JPEG', picture.clone().jpeg({ progressive: true })],
    ['JPEG with a profile and Exif', picture.clone().withIccProfile('p3').withMetadata({ orientation: 6 }).jpeg()],
    ['PNG', png],
    ['16-bit PNG', picture.clone().toColourspace('rgb16').png()],
    ['WebP, lossy', webp],
    ['WebP, lossless', picture.clone().webp({ lossless: true })],
    ['WebP with a profile', picture.clone().withIccProfile('p3').webp()],
    ['AVIF', avif],
    ['AVIF, lossless', picture.clone().avif({ lossless: true, effort: 0 })],
  ])('says of a %s what libvips says', async (_kind, made) => {
    const bytes = await bytesOf(made);
    const { format, width, height } = await sharp(bytes).metadata();
    const kind = format === 'heif' ? 'avif' : format;
    expect(await judge(bytes)).toEqual({
      ok: true,
      header: { kind, width, height, colours: 'rgb', hdr: false, complete: true },
    });
  });

  it('finds the frame of a JPEG behind long segments', async () => {
    const segment = Buffer.concat([Buffer.from([0xff, 0xe2, 0xff, 0xff]), Buffer.alloc(65_533)]);
    const long = Buffer.concat([jpeg.subarray(0, 2), segment, segment, segment, jpeg.subarray(2)]);
    expect(await judge(long)).toMatchObject({ ok: true, header: { width: WIDTH, height: HEIGHT } });
  });

  it.each([
    ['JPEG', picture.clone().toColourspace('b-w').jpeg(), 'no-colour'],
    ['PNG', picture.clone().toColourspace('b-w').png(), 'no-colour'],
    ['PNG', picture.clone().png({ palette: true }), 'few-colours'],
    ['JPEG', picture.clone().toColourspace('cmyk').jpeg(), 'printing-inks'],
    ['GIF', picture.clone().gif(), 'other-kind'],
    ['TIFF', picture.clone().tiff(), 'other-kind'],
    ['drawing', Buffer.from('<?xml version="1.0"?><!-- <b> --><svg xmlns="http://www.w3.org/2000/svg"/>'), 'vector'],
    ['drawing', Buffer.from('\ufeff \n<svg viewBox="0 0 9 9"></svg>'), 'vector'],
    ['document', Buffer.from('%PDF-1.7\n'), 'other-kind'],
    ['film', Buffer.from('\0\0\0\x18ftypmp42\0\0\0\0mp42isom'), 'other-kind'],
    ['letter', Buffer.from('Dear pool, <svg> is no drawing here'), 'not-an-image'],
    ['HEIC without a picture', Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic'), 'heic'],
    ['nothing', Buffer.alloc(0), 'empty'],
  ] as const)('refuses a %s by its code', async (_kind, made, failure) => {
    expect(await judge(await bytesOf(made))).toEqual(refused(failure));
  });

  it('refuses more pixels than memory should hold, whatever the file weighs', async () => {
    expect(await judge(bombPng(100_000, 100_000))).toEqual(refused('too-many-pixels'));
    expect(await judge(bombPng(30_000, 400))).toEqual(refused('too-long'));
    expect(await judge(bombPng(1, 1))).toEqual(refused('too-small'));
    expect(await judge(bombPng(8660, 5773))).toMatchObject({ ok: true });
    const frame = jpeg.indexOf(Buffer.from([0xff, 0xc0]));
    const wide = Buffer.from(jpeg);
    wide.writeUInt16BE(65_500, frame + 5);
    wide.writeUInt16BE(65_500, frame + 7);
    expect(await judge(wide)).toEqual(refused('too-many-pixels'));
    const spread = Buffer.from(avif);
    spread.writeUInt32BE(0x7fffffff, spread.indexOf('ispe') + 8);
    expect(await judge(spread)).toEqual(refused('too-many-pixels'));
    const wideWebp = Buffer.from(webp);
    wideWebp.writeUInt16LE(0x3fff, 26);
    wideWebp.writeUInt16LE(0x3fff, 28);
    expect(await judge(wideWebp)).toEqual(refused('too-many-pixels'));
  });

  it('reads the transfer code of ITU-T H.273 from cICP and nclx', async () => {
    for (const [transfer, hdr] of [
      [13, false],
      [16, true],
      [18, true],
    ] as const) {
      const chunk = Buffer.from([0, 0, 0, 4, ...Buffer.from('cICP'), 9, transfer, 0, 1, 0, 0, 0, 0]);
      const coded = Buffer.concat([png.subarray(0, 33), chunk, png.subarray(33)]);
      expect(await judge(coded)).toMatchObject(hdr ? refused('high-dynamic-range') : { ok: true });
      expect(await judge(headerOfAvif(transfer))).toMatchObject(hdr ? refused('high-dynamic-range') : { ok: true });
    }
  });
});

describe('a file that is cut short', () => {
  it.each([
    ['JPEG', jpeg],
    ['PNG', png],
    ['WebP', webp],
    ['AVIF', avif],
  ])('%s: is refused wherever the cut lies', async (_kind, bytes) => {
    for (let share = 0.02; share < 1; share += 0.02) {
      const judged = await judge(bytes.subarray(0, Math.floor(bytes.length * share)));
      expect(judged.ok, `${share}`).toBe(false);
    }
    expect(await judge(bytes.subarray(0, bytes.length - 16))).toEqual(refused('damaged'));
  });

  it('is told from one with something behind its end', async () => {
    const film = Buffer.alloc(200_000, 'film');
    for (const bytes of [jpeg, png, webp]) {
      expect(await judge(Buffer.concat([bytes, film]))).toMatchObject({ ok: true });
      expect(await judge(Buffer.concat([bytes, Buffer.alloc(9000)]))).toMatchObject({ ok: true });
    }
    expect(await judge(Buffer.concat([jpeg.subarray(0, -2), film]))).toEqual(refused('damaged'));
    expect(await judge(Buffer.concat([png.subarray(0, -12), film]))).toEqual(refused('damaged'));
  });
});

describe('hostile bytes', () => {
  it('never throw, and come to an end', async () => {
    const random = randomFrom(5);
    const starts = [jpeg, png, webp, avif, await picture.clone().jpeg({ progressive: true }).toBuffer()];
    for (let i = 0; i < 4000; i++) {
      const bytes = Buffer.from(starts[i % starts.length]!);
      const reach = random() < 0.7 ? 400 : bytes.length;
      for (let k = 0; k < 1 + 12 * random(); k++)
        bytes[Math.floor(random() * Math.min(reach, bytes.length))] = 256 * random();
      const judged = await judge(bytes);
      if (!judged.ok) expect(PHOTO_FAILURES).toContain(judged.failure);
      else expect(judged.header.width * judged.header.height).toBeLessThanOrEqual(60_000_000);
    }
  });

  it('made of boxes without length end all the same', async () => {
    const empty = Buffer.from('\0\0\0\0meta');
    const long = Buffer.concat([
      Buffer.from('\0\0\0\x14ftypavif\0\0\0\0avif'),
      ...Array<Buffer>(50_000).fill(Buffer.from('\0\0\0\x08free')),
    ]);
    expect(await judge(long)).toEqual(refused('damaged'));
    expect(await judge(Buffer.concat([long.subarray(0, 20), empty]))).toEqual(refused('damaged'));
  });
});
