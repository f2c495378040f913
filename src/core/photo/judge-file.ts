/** Whether a file may be decoded at all: its header is read, and nothing in it is trusted. */
import { ByteReader, type ByteSource } from './byte-source.ts';
import type { PhotoFailure } from './failure.ts';
import type { PhotoHeader } from './header.ts';
import { heifKind, readHeif } from './heif.ts';
import { readJpeg } from './jpeg.ts';
import { readPng } from './png.ts';
import { readWebp } from './webp.ts';

/** 50 megapixels at four bytes each: the largest photo that doesn't compress at all. */
export const MAX_BYTES = 200_000_000;
export const MAX_PIXELS = 60_000_000;
/** Canvases and decoders of browsers end here. */
const MAX_SIDE = 16_384;
/** Below this no card fills enough pixels to be read. */
const MIN_SIDE = 240;
/** A drawing may begin with a long comment. */
const TEXT_BYTES = 4096;

/** What other kinds of files begin with, and at which byte: films and other boxes have their length before. */
const OTHER_KINDS: readonly (readonly [at: number, magic: string])[] = [
  [0, 'GIF8'],
  [0, 'II*\0'], // TIFF, and raw files built on it
  [0, 'MM\0*'],
  [0, '\xff\x0a'], // JPEG XL
  [4, 'JXL '],
  [4, 'jP  '], // JPEG 2000
  [4, 'ftyp'],
  [0, 'BM'],
  [0, '\0\0\x01\0'], // icon
  [0, '8BPS'],
  [0, '%PDF'],
];

export type FileJudgement =
  { readonly ok: true; readonly header: PhotoHeader } | { readonly ok: false; readonly failure: PhotoFailure };

export async function judgeFile(source: ByteSource): Promise<FileJudgement> {
  if (source.size === 0) return refuse('empty');
  if (source.size > MAX_BYTES) return refuse('too-heavy');
  const reader = new ByteReader(source);
  const found = await readHeader(reader);
  if (typeof found === 'string') return refuse(found);
  const failure = sizeFailure(found) ?? contentFailure(found);
  return failure ? refuse(failure) : { ok: true, header: found };
}

/** Width and height in pixels, either way round. */
export function sizeFailure({ width, height }: { width: number; height: number }): PhotoFailure | null {
  if (width * height > MAX_PIXELS) return 'too-many-pixels';
  if (Math.max(width, height) > MAX_SIDE) return 'too-long';
  return Math.min(width, height) < MIN_SIDE ? 'too-small' : null;
}

function contentFailure({ colours, hdr, complete }: PhotoHeader): PhotoFailure | null {
  if (!complete) return 'damaged';
  if (colours === 'grey') return 'no-colour';
  if (colours === 'inks') return 'printing-inks';
  if (colours === 'palette') return 'few-colours';
  return hdr ? 'high-dynamic-range' : null;
}

async function readHeader(reader: ByteReader): Promise<PhotoHeader | PhotoFailure> {
  const start = (await reader.text(0, Math.min(TEXT_BYTES, reader.size))) ?? '';
  if (start.startsWith('\xff\xd8')) return (await readJpeg(reader)) ?? 'damaged';
  if (start.startsWith('\x89PNG\r\n\x1a\n')) return (await readPng(reader)) ?? 'damaged';
  if (/^RIFF[^]{4}WEBP/.test(start)) return (await readWebp(reader)) ?? 'damaged';
  const kind = await heifKind(reader);
  if (kind) return (await readHeif(reader, kind)) ?? (kind === 'heic' ? 'heic' : 'damaged');
  if (/^(\xef\xbb\xbf)?\s*(<[^]*)?<svg[\s>]/i.test(start)) return 'vector';
  return OTHER_KINDS.some(([at, magic]) => start.startsWith(magic, at)) ? 'other-kind' : 'not-an-image';
}

function refuse(failure: PhotoFailure): FileJudgement {
  return { ok: false, failure };
}
