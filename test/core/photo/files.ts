/** Photo files of every kind a person may choose, made with sharp out of one picture. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp, { type Sharp } from 'sharp';
import { iccProfile, type ProfiledSpace } from './icc-profile.ts';

export interface PhotoFile {
  readonly name: string;
  readonly type: string;
  readonly bytes: Buffer;
}

type Make = (picture: Sharp) => Sharp;

const LOSSLESS_JPEG = { quality: 97, chromaSubsampling: '4:4:4' } as const;

/** What must read the same as the picture itself. */
const SAME: Readonly<Record<string, Make>> = {
  'baseline.jpg': (picture) => picture.jpeg(LOSSLESS_JPEG),
  'progressive.jpg': (picture) => picture.jpeg({ ...LOSSLESS_JPEG, progressive: true }),
  'eight-bit.png': (picture) => picture.png(),
  'sixteen-bit.png': (picture) => picture.toColourspace('rgb16').png(),
  'with-alpha.png': (picture) => picture.ensureAlpha().png(),
  'interlaced.png': (picture) => picture.png({ progressive: true }),
  'lossy.webp': (picture) => picture.webp({ quality: 98, smartSubsample: true }),
  'lossless.webp': (picture) => picture.webp({ lossless: true, effort: 0 }),
  'eight-bit.avif': (picture) => picture.avif({ quality: 90, effort: 0, chromaSubsampling: '4:4:4' }),
  'png-called.jpg': (picture) => picture.png(),
  'display-p3.jpg': (picture) => picture.withIccProfile('p3').jpeg(LOSSLESS_JPEG),
  'display-p3.png': (picture) => picture.withIccProfile('p3').png(),
  'display-p3.webp': (picture) => picture.withIccProfile('p3').webp({ lossless: true, effort: 0 }),
  'display-p3.avif': (picture) =>
    picture.withIccProfile('p3').avif({ quality: 90, effort: 0, chromaSubsampling: '4:4:4' }),
  'adobe-rgb.png': (picture) => picture.withIccProfile(profileFile('a98rgb')).png(),
  'prophoto-sixteen-bit.png': (picture) => picture.toColourspace('rgb16').withIccProfile(profileFile('prophoto')).png(),
};

export const SAME_KINDS: readonly string[] = Object.keys(SAME);

export async function sameKind(name: string, picture: Buffer): Promise<PhotoFile> {
  return { name, type: typeOf(name), bytes: await SAME[name]!(sharp(picture)).toBuffer() };
}

/** A lossless picture turned so that the tag brings it upright again: stored first, then the tag. */
export async function tagged(upright: Buffer, orientation: number, format: 'jpeg' | 'png' | 'webp'): Promise<Buffer> {
  const stored = await sharp(await storedAs(upright, orientation))
    .withMetadata({ orientation })
    .toFormat(format, format === 'jpeg' ? LOSSLESS_JPEG : { lossless: true })
    .toBuffer();
  return stored;
}

/**
 * CIPA DC-008-2019 (Exif 2.32), tag 274: on which side of the upright picture the first stored row and the first
 * stored column lie.
 */
export const ORIENTATIONS: readonly (readonly [row: Side, column: Side])[] = [
  ['top', 'left'],
  ['top', 'right'],
  ['bottom', 'right'],
  ['bottom', 'left'],
  ['left', 'top'],
  ['right', 'top'],
  ['right', 'bottom'],
  ['left', 'bottom'],
];
type Side = 'top' | 'right' | 'bottom' | 'left';

/** Moves every pixel to where the standard's table puts it. */
async function storedAs(upright: Buffer, orientation: number): Promise<Buffer> {
  const { data, info } = await sharp(upright).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  const [rowSide, columnSide] = ORIENTATIONS[orientation - 1]!;
  const upended = rowSide === 'left' || rowSide === 'right';
  const [width, height] = upended ? [info.height, info.width] : [info.width, info.height];
  const stored = Buffer.alloc(data.length);
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const place = { top: 0, left: 0 };
      for (const [side, steps] of [
        [rowSide, row],
        [columnSide, column],
      ] as const) {
        if (side === 'top') place.top = steps;
        if (side === 'bottom') place.top = info.height - 1 - steps;
        if (side === 'left') place.left = steps;
        if (side === 'right') place.left = info.width - 1 - steps;
      }
      data.copy(
        stored,
        (row * width + column) * 3,
        (place.top * info.width + place.left) * 3,
        (place.top * info.width + place.left) * 3 + 3,
      );
    }
  }
  return sharp(stored, { raw: { width, height, channels: 3 } })
    .png({ compressionLevel: 1 })
    .toBuffer();
}

/** An animation of two frames: the picture, then black. */
export async function animatedWebp(picture: Buffer): Promise<Buffer> {
  const { width, height } = await sharp(picture).metadata();
  const black = await sharp({ create: { width, height, channels: 3, background: '#000' } })
    .png()
    .toBuffer();
  return sharp([picture, black], { join: { animated: true } })
    .webp({ lossless: true, effort: 0 })
    .toBuffer();
}

/** A sound PNG header that promises more than any memory holds. */
export function bombPng(width: number, height: number): Buffer {
  const header = Buffer.alloc(33);
  header.write('\x89PNG\r\n\x1a\n', 'latin1');
  header.writeUInt32BE(13, 8);
  header.write('IHDR', 12);
  header.writeUInt32BE(width, 16);
  header.writeUInt32BE(height, 20);
  header.set([8, 2, 0, 0, 0], 24);
  return Buffer.concat([header, Buffer.from('\0\0\0\0IEND\xae\x42\x60\x82', 'latin1')]);
}

export function typeOf(name: string): string {
  const ending = name.split('.').at(-1)!;
  return `image/${ending === 'jpg' ? 'jpeg' : ending === 'svg' ? 'svg+xml' : ending}`;
}

function profileFile(space: ProfiledSpace): string {
  const file = join(mkdtempSync(join(tmpdir(), 'dipwise-icc-')), `${space}.icc`);
  writeFileSync(file, iccProfile(space));
  return file;
}
