/** RFC 9649 (WebP): the size from VP8X, VP8L or the VP8 frame header of RFC 6386. */
import type { ByteReader } from './byte-source.ts';
import type { PhotoHeader } from './header.ts';

/** @returns null when there is no sound header */
export async function readWebp(reader: ByteReader): Promise<PhotoHeader | null> {
  const view = await reader.view(0, 30);
  const form = await reader.text(12, 4);
  if (!view || form === null) return null;
  const size = sizeOf(view, form);
  if (!size || size.width === 0 || size.height === 0) return null;
  const end = 8 + view.getUint32(4, true);
  return { kind: 'webp', ...size, colours: 'rgb', hdr: false, complete: end <= reader.size };
}

function sizeOf(view: DataView, form: string): { width: number; height: number } | null {
  switch (form) {
    case 'VP8X':
      return { width: 1 + uint24(view, 24), height: 1 + uint24(view, 27) };
    case 'VP8L': {
      if (view.getUint8(20) !== 0x2f) return null;
      const bits = view.getUint32(21, true);
      return { width: 1 + (bits & 0x3fff), height: 1 + ((bits >>> 14) & 0x3fff) };
    }
    case 'VP8 ': {
      const isKeyFrame = uint24(view, 23) === 0x2a019d;
      return isKeyFrame
        ? { width: view.getUint16(26, true) & 0x3fff, height: view.getUint16(28, true) & 0x3fff }
        : null;
    }
    default:
      return null;
  }
}

function uint24(view: DataView, at: number): number {
  return view.getUint16(at, true) | (view.getUint8(at + 2) << 16);
}
