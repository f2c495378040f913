import { type FileHandle, open } from 'node:fs/promises';
import sharp from 'sharp';
import type { PhotoFailure } from '../core/photo/failure.ts';
import { judgeFile, MAX_BYTES, MAX_PIXELS } from '../core/photo/judge-file.ts';
import { hugeFactor } from '../core/photo/huge.ts';
import { shrinkHuge } from '../vision/huge.ts';
import type { Pixels } from '../vision/pixels.ts';
import { allOf } from './files.ts';

export type Opened =
  /** `factor`: a place in the photo is so many times a place in the pixels. */
  | { readonly ok: true; readonly pixels: Pixels; readonly factor: number }
  | { readonly ok: false; readonly failure: PhotoFailure };

/** A file that is refused by its size or header is not read any further. */
export async function openPhotoAt(path: string): Promise<Opened> {
  const handle = await open(path).catch(() => null);
  if (!handle) return { ok: false, failure: 'unreadable' };
  try {
    const judged = await judgeUnread(handle);
    if (judged && !judged.ok) return judged;
    const file = await allOf(handle, MAX_BYTES);
    return file ? await openPhoto(file) : { ok: false, failure: 'too-heavy' };
  } catch {
    return { ok: false, failure: 'unreadable' };
  } finally {
    await handle.close();
  }
}

/** @returns null for what can be read only once, from its start, such as a pipe */
async function judgeUnread(handle: FileHandle) {
  const about = await handle.stat();
  if (!about.isFile()) return null;
  return judgeFile({
    size: about.size,
    read: async (from, to) => {
      const { buffer, bytesRead } = await handle.read({ buffer: Buffer.alloc(to - from), position: from });
      return buffer.subarray(0, bytesRead);
    },
  });
}

/** Decodes a photo file to upright sRGB pixels, as a browser would. */
export async function openPhoto(file: Uint8Array): Promise<Opened> {
  const judged = await judgeFile({
    size: file.length,
    read: (from, to) => Promise.resolve(file.subarray(from, to)),
  });
  if (!judged.ok) return judged;
  const { kind, width: storedWidth, height: storedHeight } = judged.header;
  const factor = hugeFactor(judged.header);
  // The transform of a JPEG gives half its size by itself, as it does in the page.
  const isHalved = kind === 'jpeg' && factor === 2;
  const side = Math.floor(Math.max(storedWidth, storedHeight) / 2);
  try {
    const { data, info } = await sharp(file, { limitInputPixels: MAX_PIXELS, failOn: 'error' })
      .autoOrient()
      .resize(isHalved ? { width: side, height: side, fit: 'inside' } : {})
      // Otherwise pictures of 16 bit come out in Display P3.
      .pipelineColourspace('srgb')
      .flatten({ background: '#000' })
      .toColourspace('srgb')
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const { width, height } = info;
    const photo = { data: new Uint8ClampedArray(data.buffer, data.byteOffset, data.length), width, height };
    return { ok: true, pixels: isHalved ? photo : shrinkHuge(photo), factor };
  } catch {
    return { ok: false, failure: kind === 'heic' || kind === 'avif' ? kind : 'damaged' };
  }
}

/** @returns null when it isn't a photo that can be opened */
export async function decodePhoto(file: Uint8Array): Promise<Pixels | null> {
  const opened = await openPhoto(file);
  return opened.ok ? opened.pixels : null;
}
