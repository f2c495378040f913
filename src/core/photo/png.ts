/** W3C PNG specification (third edition): IHDR, cICP, and whether IEND is there. */
import type { ByteReader } from './byte-source.ts';
import { isHdrTransfer, type PhotoHeader } from './header.ts';

const TAIL_BYTES = 65_536;
/** IEND is always empty, so its checksum is always the same. */
const IEND = [0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82];
const MAX_CHUNKS_BEFORE_DATA = 200;
const COLOURS = { 0: 'grey', 2: 'rgb', 3: 'palette', 4: 'grey', 6: 'rgb' } as const;

/** @returns null when there is no sound header */
export async function readPng(reader: ByteReader): Promise<PhotoHeader | null> {
  const view = await reader.view(8, 25);
  if (!view || view.getUint32(0) !== 13 || (await reader.text(12, 4)) !== 'IHDR') return null;
  const [width, height] = [view.getUint32(8), view.getUint32(12)];
  const colours = COLOURS[view.getUint8(17) as keyof typeof COLOURS] as (typeof COLOURS)[0 | 2 | 3] | undefined;
  if (width === 0 || height === 0 || colours === undefined) return null;
  const hdr = await isHdr(reader);
  return { kind: 'png', width, height, colours, hdr, complete: await hasEnd(reader) };
}

async function hasEnd(reader: ByteReader): Promise<boolean> {
  if (holds(await reader.tail(TAIL_BYTES), IEND)) return true;
  // Something long may lie behind the end.
  return (await chunkStart(reader, (type) => type === 'IEND', Infinity)) !== null;
}

async function isHdr(reader: ByteReader): Promise<boolean> {
  const found = await chunkStart(reader, (type) => type === 'cICP' || type === 'IDAT', MAX_CHUNKS_BEFORE_DATA);
  if (found === null || (await reader.text(found + 4, 4)) !== 'cICP') return false;
  return isHdrTransfer((await reader.view(found + 9, 1))?.getUint8(0) ?? 0);
}

/** Where the first chunk of this sort begins: its length field; null when the file ends before. */
async function chunkStart(reader: ByteReader, is: (type: string) => boolean, most: number): Promise<number | null> {
  let at = 8;
  for (let chunk = 0; chunk < most; chunk++) {
    const length = (await reader.view(at, 4))?.getUint32(0);
    const type = await reader.text(at + 4, 4);
    if (length === undefined || type === null) return null;
    if (is(type)) return at;
    at += 12 + length;
  }
  return null;
}

function holds(bytes: Uint8Array, wanted: readonly number[]): boolean {
  for (let at = bytes.lastIndexOf(wanted[0]!); at >= 0; at = at > 0 ? bytes.lastIndexOf(wanted[0]!, at - 1) : -1) {
    if (wanted.every((byte, i) => bytes[at + i] === byte)) return true;
  }
  return false;
}
