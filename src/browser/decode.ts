/** From a file a person chose to a picture. */
import type { ByteSource } from '../core/photo/byte-source.ts';
import type { PhotoFailure } from '../core/photo/failure.ts';
import type { PhotoHeader } from '../core/photo/header.ts';
import { judgeFile, sizeFailure } from '../core/photo/judge-file.ts';
import type { Picture } from '../vision/messages.ts';
import { frameOf } from './frame-decoder.ts';

/** A picture and its size upright, px. */
export interface Decoded {
  readonly ok: true;
  readonly picture: Picture;
  readonly width: number;
  readonly height: number;
}

export type Decoding = Decoded | { readonly ok: false; readonly failure: PhotoFailure };

/** Larger files are looked into piece by piece: most of them are refused by their header. */
const MAX_AT_ONCE = 40_000_000;
/** A file can be made so that a decoder needs minutes for it. */
const MAX_MILLIS = 10_000;

/**
 * Decodes in full, to a picture that is sRGB and upright or knows how it is to become so; the caller owns the picture and
 * closes it. A file whose header asks for too much is never decoded.
 */
export async function decodePhoto(file: Blob): Promise<Decoding> {
  const bytes = file.size <= MAX_AT_ONCE ? await file.arrayBuffer().catch(() => null) : null;
  const judged = await judgeFile(bytes ? sourceOfBytes(bytes) : sourceOf(file)).catch(() => null);
  // Removed, or denied, since it was chosen.
  if (!judged) return { ok: false, failure: 'unreadable' };
  if (!judged.ok) return judged;
  const { header } = judged;
  // By what it is, not by what its name says.
  const decoding = await decode(file.slice(0, file.size, `image/${header.kind}`), bytes, header);
  const failure = decoding.ok ? sizeFailure(decoding) : null;
  if (!decoding.ok || !failure) return decoding;
  decoding.picture.close();
  return { ok: false, failure };
}

/** A picture that was never a file. */
export function decodedAs(picture: Picture): Decoded {
  const [width, height] =
    'displayWidth' in picture ? [picture.displayWidth, picture.displayHeight] : [picture.width, picture.height];
  return { ok: true, picture, width, height };
}

async function decode(photo: Blob, bytes: ArrayBuffer | null, header: PhotoHeader): Promise<Decoding> {
  const given = new AbortController();
  const decoding = pictureOf(photo, bytes, header, given.signal);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const tooSlow = new Promise<null>((resolve) => (timer = setTimeout(() => resolve(null), MAX_MILLIS)));
  try {
    const picture = await Promise.race([decoding, tooSlow]);
    if (picture) return decodedAs(picture);
    given.abort();
    decoding.then((late) => late.close()).catch(() => undefined);
    return { ok: false, failure: 'too-slow' };
  } catch {
    const { kind } = header;
    return { ok: false, failure: kind === 'heic' || kind === 'avif' ? kind : 'damaged' };
  } finally {
    clearTimeout(timer);
  }
}

/** @param bytes of the photo where they are read already; given away */
async function pictureOf(
  photo: Blob,
  bytes: ArrayBuffer | null,
  header: PhotoHeader,
  signal: AbortSignal,
): Promise<Picture> {
  const frame = header.kind === 'jpeg' ? await frameOf(bytes ?? photo, header, signal).catch(() => null) : null;
  if (signal.aborted) frame?.close();
  signal.throwIfAborted();
  return frame ?? createImageBitmap(photo, { imageOrientation: 'from-image', premultiplyAlpha: 'none' });
}

function sourceOfBytes(bytes: ArrayBuffer): ByteSource {
  return {
    size: bytes.byteLength,
    read: (from, to) => Promise.resolve(new Uint8Array(bytes, from, Math.min(to, bytes.byteLength) - from)),
  };
}

function sourceOf(file: Blob): ByteSource {
  return {
    size: file.size,
    read: async (from, to) => new Uint8Array(await file.slice(from, to).arrayBuffer()),
  };
}
