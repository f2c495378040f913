/** Every kind of file that a person may choose, through the page's real decoder. */
import { expect, type Page, test } from '@playwright/test';
import sharp from 'sharp';
import { ciede2000 } from '../../src/core/colour/difference.ts';
import type { PhotoFailure } from '../../src/core/photo/failure.ts';
import { photoMessage } from '../../src/words/photo.ts';
import { hearWorkers, type PageAnswer, readInPage } from '../browsers/in-page.ts';
import {
  animatedWebp,
  bombPng,
  ORIENTATIONS,
  type PhotoFile,
  SAME_KINDS,
  sameKind,
  tagged,
  typeOf,
} from '../core/photo/files.ts';
import { damagedFile, soundFiles } from '../bench/files/damage.ts';
import { randomFrom } from '../studio/random.ts';
import { openDesk, ORDINARY } from './reading.ts';

/** Lossless, so that each kind's own coding is all that differs. */
const picture = withGrain(`sample-images/${ORDINARY.file}`);

/**
 * A camera's grain, 2 levels, of which making the photo small leaves little: all pixels of an even pad would be rounded
 * alike by a file's coding, in Display P3 by two levels of red.
 */
async function withGrain(path: string): Promise<Buffer> {
  const { data, info } = await sharp(path).resize(1200).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const random = randomFrom(1);
  const { width, height, channels } = info;
  const grained = Uint8Array.from(data, (level) => Math.min(255, Math.max(0, Math.round(level + 2 * random.normal()))));
  return sharp(grained, { raw: { width, height, channels } }).png({ compressionLevel: 1 }).toBuffer();
}

async function read(page: Page, { name, type, bytes }: PhotoFile): Promise<PageAnswer> {
  await page.evaluate(hearWorkers);
  return page.evaluate(readInPage, { name, type, base64: bytes.toString('base64'), scale: ORDINARY.scale });
}

async function readPicture(page: Page): Promise<PageAnswer> {
  const answer = await read(page, { name: 'picture.png', type: 'image/png', bytes: await picture });
  expect(answer.outcome).toBe('read');
  return answer;
}

/** The largest CIEDE2000 between the same pads of two readings. */
function apart(one: PageAnswer, other: PageAnswer): number {
  expect(one.pads.map(({ parameter }) => parameter)).toEqual(other.pads.map(({ parameter }) => parameter));
  return Math.max(...one.pads.map(({ lab }, i) => ciede2000([...lab], [...other.pads[i]!.lab])));
}

test('every kind that is read gives the same colours within 1 CIEDE2000', { tag: '@release' }, async ({ page }) => {
  test.setTimeout(240_000);
  await openDesk(page);
  const plain = await readPicture(page);
  for (const kind of SAME_KINDS) {
    const answer = await read(page, await sameKind(kind, await picture));
    expect(answer, kind).toMatchObject({ outcome: 'read' });
    expect(apart(answer, plain), kind).toBeLessThan(1);
  }
  const animated = { name: 'film.webp', type: 'image/webp', bytes: await animatedWebp(await picture) };
  expect(apart(await read(page, animated), plain)).toBeLessThan(1);
});

test('all eight orientations of the Exif standard give the same reading', { tag: '@release' }, async ({ page }) => {
  test.setTimeout(240_000);
  await openDesk(page);
  const plain = await readPicture(page);
  for (let orientation = 1; orientation <= ORIENTATIONS.length; orientation++) {
    for (const format of orientation === 6 ? (['jpeg', 'png', 'webp'] as const) : (['jpeg'] as const)) {
      const bytes = await tagged(await picture, orientation, format);
      const answer = await read(page, { name: `photo.${format}`, type: `image/${format}`, bytes });
      expect(answer, `${format} ${orientation}`).toMatchObject({ outcome: 'read' });
      expect(apart(answer, plain), `${format} ${orientation}`).toBeLessThan(1);
    }
  }
});

test('a photo of 50 megapixels is read, with bounded memory', { tag: '@release' }, async ({ page }) => {
  test.setTimeout(240_000);
  await openDesk(page);
  const bytes = await sharp(await picture)
    .resize(8165, 6124)
    .jpeg({ quality: 90 })
    .toBuffer();
  const answer = await read(page, { name: 'huge.jpg', type: 'image/jpeg', bytes });
  expect(answer).toMatchObject({ outcome: 'read' });
  expect(apart(answer, await readPicture(page))).toBeLessThan(1);
});

test('what can’t be read is refused with a sentence of its own, and the page lives on', async ({ page }) => {
  test.setTimeout(240_000);
  await openDesk(page);
  const upright = sharp(await picture);
  const jpeg = await upright.clone().jpeg().toBuffer();
  const progressive = await upright.clone().jpeg({ progressive: true }).toBuffer();
  const avif = await upright.clone().avif({ effort: 0 }).toBuffer();
  const cut = (bytes: Buffer, share: number) => bytes.subarray(0, Math.floor(bytes.length * share));
  const broken = Buffer.from(await picture);
  broken.fill(0x55, broken.indexOf('IDAT') + 300, broken.indexOf('IDAT') + 400);
  const refused: [name: string, bytes: Buffer, failure: PhotoFailure][] = [
    ['nothing.jpg', Buffer.alloc(0), 'empty'],
    ['cut.jpg', cut(jpeg, 0.8), 'damaged'],
    ['cut-progressive.jpg', cut(progressive, 0.3), 'damaged'],
    ['cut.png', cut(await picture, 0.9), 'damaged'],
    ['cut.webp', cut(await upright.clone().webp().toBuffer(), 0.9), 'damaged'],
    ['cut.avif', cut(avif, 0.9), 'damaged'],
    ['broken.png', broken, 'damaged'],
    ['grey.jpg', await upright.clone().toColourspace('b-w').jpeg().toBuffer(), 'no-colour'],
    ['grey.png', await upright.clone().toColourspace('b-w').png().toBuffer(), 'no-colour'],
    ['inks.jpg', await upright.clone().withIccProfile('cmyk').jpeg().toBuffer(), 'printing-inks'],
    ['few.png', await upright.clone().resize(400).png({ palette: true, effort: 1 }).toBuffer(), 'few-colours'],
    ['few.gif', await upright.clone().resize(400).gif({ effort: 1 }).toBuffer(), 'other-kind'],
    ['film.jpg', Buffer.from('\0\0\0\x18ftypmp42\0\0\0\0mp42isom'), 'other-kind'],
    ['drawing.svg', Buffer.from('<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg"/>'), 'vector'],
    ['photo.heic', heicOf(avif), 'heic'],
    ['words.png', Buffer.from('no picture at all'), 'not-an-image'],
    ['dot.png', await upright.clone().resize(1, 1).png().toBuffer(), 'too-small'],
    [
      'long.png',
      await upright.clone().resize(30_000, 300, { fit: 'fill' }).png({ compressionLevel: 1 }).toBuffer(),
      'too-long',
    ],
    ['bomb.png', bombPng(60_000, 60_000), 'too-many-pixels'],
    ['bomb.jpg', await realBomb(), 'too-many-pixels'],
  ];
  for (const [name, bytes, failure] of refused) {
    const answer = await read(page, { name, type: typeOf(name), bytes });
    expect(answer, name).toMatchObject({ outcome: 'refused' });
    const { wrong, remedy } = photoMessage(failure);
    expect(answer.sentence.trim(), name).toBe(`${wrong} ${remedy}`);
    expect(answer.millis, name).toBeLessThan(10_000);
  }
  await readPicture(page);
});

/** The same boxes with HEIC's brand: an HEVC decoder is what this browser lacks. */
function heicOf(avif: Buffer): Buffer {
  return Buffer.from(avif.toString('latin1').replaceAll('avif', 'heic').replaceAll('av01', 'hvc1'), 'latin1');
}

/** A sound JPEG of a few hundred kilobytes that unfolds to 400 million pixels. */
function realBomb(): Promise<Buffer> {
  return sharp({ create: { width: 20_000, height: 20_000, channels: 3, background: '#345' }, limitInputPixels: false })
    .jpeg({ quality: 40 })
    .toBuffer();
}

test('damaged and random files do no harm', { tag: '@release' }, async ({ page }) => {
  test.setTimeout(240_000);
  const errors: string[] = [];
  page.on('pageerror', ({ message }) => errors.push(message));
  await openDesk(page);
  const sound = await soundFiles(`sample-images/${ORDINARY.file}`);
  // `npm run damage` does the same for ten thousand.
  for (let seed = 1; seed <= 120; seed++) {
    const answer = await read(page, damagedFile(sound, seed));
    expect(answer.outcome, `seed ${seed}`).not.toBe('silent');
    expect(answer.millis, `seed ${seed}`).toBeLessThan(10_000);
  }
  expect(errors).toEqual([]);
  await readPicture(page);
});
