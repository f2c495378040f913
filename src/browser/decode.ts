/** From a file a person chose to a picture. */
import type { ByteSource } from '../core/photo/byte-source.ts';
import type { PhotoFailure } from '../core/photo/failure.ts';
import type { PhotoKind } from '../core/photo/header.ts';
import { judgeFile, sizeFailure } from '../core/photo/judge-file.ts';

export type Decoded =
  { readonly ok: true; readonly bitmap: ImageBitmap } | { readonly ok: false; readonly failure: PhotoFailure };

/** A file can be made so that a decoder needs minutes for it. */
const MOST_MILLIS = 10_000;

/**
 * Decodes in full, to sRGB, upright by the photo's own orientation tag; the caller owns the bitmap and closes it.
 * A file whose header asks for too much is never decoded.
 */
export async function decodePhoto(file: Blob): Promise<Decoded> {
  const judged = await judgeFile(sourceOf(file)).catch(() => null);
  // Removed, or denied, since it was chosen.
  if (!judged) return { ok: false, failure: 'unreadable' };
  if (!judged.ok) return judged;
  const { kind } = judged.header;
  // By what it is, not by what its name says.
  const decoded = await decode(file.slice(0, file.size, `image/${kind}`), kind);
  const failure = decoded.ok ? sizeFailure(decoded.bitmap) : null;
  if (!decoded.ok || !failure) return decoded;
  decoded.bitmap.close();
  return { ok: false, failure };
}

async function decode(photo: Blob, kind: PhotoKind): Promise<Decoded> {
  const decoding = createImageBitmap(photo, { imageOrientation: 'from-image', premultiplyAlpha: 'none' });
  let timer: ReturnType<typeof setTimeout> | undefined;
  const tooSlow = new Promise<null>((resolve) => (timer = setTimeout(() => resolve(null), MOST_MILLIS)));
  try {
    const bitmap = await Promise.race([decoding, tooSlow]);
    if (bitmap) return { ok: true, bitmap };
    decoding.then((late) => late.close()).catch(() => undefined);
    return { ok: false, failure: 'too-slow' };
  } catch {
    return { ok: false, failure: kind === 'heic' || kind === 'avif' ? kind : 'damaged' };
  } finally {
    clearTimeout(timer);
  }
}

function sourceOf(file: Blob): ByteSource {
  return {
    size: file.size,
    read: async (from, to) => new Uint8Array(await file.slice(from, to).arrayBuffer()),
  };
}
