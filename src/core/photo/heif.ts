/** ISO/IEC 23008-12 (HEIF: AVIF and HEIC) in the boxes of ISO/IEC 14496-12: the largest size that is declared. */
import { type ByteReader, latin1 } from './byte-source.ts';
import { isHdrTransfer, type PhotoHeader } from './header.ts';

const MAX_BOXES = 1000;
/** Versions and sizes of item properties: far more than any photo needs. */
const MAX_PROPERTY_BYTES = 262_144;

interface Box {
  readonly type: string;
  /** Where its content begins and where it ends, bytes. */
  readonly start: number;
  readonly end: number;
}

/** Which of the two a file type box names; null for a film or anything else. */
export async function heifKind(reader: ByteReader): Promise<'avif' | 'heic' | null> {
  const view = await reader.view(0, 12);
  if (!view || (await reader.text(4, 4)) !== 'ftyp') return null;
  const length = Math.min(view.getUint32(0), 256, reader.size);
  const brands = (await reader.text(8, Math.max(4, length - 8)))?.match(/[^]{4}/g) ?? [];
  if (brands.some((brand) => brand === 'avif' || brand === 'avis')) return 'avif';
  return brands.some((brand) => /^(hei[cmsx]|hev[cmsx]|mif1|msf1)$/.test(brand)) ? 'heic' : null;
}

/** @returns null when no sound size is declared */
export async function readHeif(reader: ByteReader, kind: 'avif' | 'heic'): Promise<PhotoHeader | null> {
  const { boxes, complete } = await boxesIn(reader, 0, reader.size);
  const meta = boxes.find(({ type }) => type === 'meta');
  if (!meta) return null;
  // The meta box and each property begin with four bytes of version and flags.
  const iprp = (await boxesIn(reader, meta.start + 4, meta.end)).boxes.find(({ type }) => type === 'iprp');
  const ipco = iprp && (await boxesIn(reader, iprp.start, iprp.end)).boxes.find(({ type }) => type === 'ipco');
  if (!ipco || ipco.end - ipco.start > MAX_PROPERTY_BYTES) return null;
  let [width, height, hdr] = [0, 0, false];
  for (const { type, start } of (await boxesIn(reader, ipco.start, ipco.end)).boxes) {
    if (type === 'ispe') {
      const view = await reader.view(start + 4, 8);
      width = Math.max(width, view?.getUint32(0) ?? 0);
      height = Math.max(height, view?.getUint32(4) ?? 0);
    } else if (type === 'colr' && (await reader.text(start, 4)) === 'nclx') {
      hdr ||= isHdrTransfer((await reader.view(start + 6, 2))?.getUint16(0) ?? 0);
    }
  }
  return width > 0 && height > 0 ? { kind, width, height, colours: 'rgb', hdr, complete } : null;
}

/** The boxes between two places; not complete when the last reaches beyond. */
async function boxesIn(reader: ByteReader, from: number, to: number): Promise<{ boxes: Box[]; complete: boolean }> {
  const boxes: Box[] = [];
  let at = from;
  while (at + 8 <= to && boxes.length < MAX_BOXES) {
    const head = await reader.view(at, 8);
    if (!head) return { boxes, complete: false };
    const type = latin1(new Uint8Array(head.buffer, head.byteOffset + 4, 4));
    const short = head.getUint32(0);
    // 1: the length follows in eight bytes; 0: the box reaches to the end.
    const long = short === 1 ? (await reader.view(at + 8, 8))?.getBigUint64(0) : undefined;
    const length = short === 0 ? to - at : Number(long ?? short);
    const start = at + (short === 1 ? 16 : 8);
    const end = at + length;
    if (end < start) return { boxes, complete: false };
    boxes.push({ type, start, end: Math.min(end, to) });
    if (end > to) return { boxes, complete: false };
    at = end;
  }
  return { boxes, complete: true };
}
