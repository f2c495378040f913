/** ITU-T T.81 (JPEG), annex B: the frame header, and whether the end of the image is there. */
import type { ByteReader } from './byte-source.ts';
import type { PhotoHeader } from './header.ts';

const MAX_SEGMENTS = 2000;
const TAIL_BYTES = 4096;
const STEP_BYTES = 1_048_576;
const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;

/** @returns null when there is no sound frame header */
export async function readJpeg(reader: ByteReader): Promise<PhotoHeader | null> {
  let at = 2;
  for (let segment = 0; segment < MAX_SEGMENTS; segment++) {
    const view = await reader.view(at, 4);
    if (view?.getUint8(0) !== 0xff) return null;
    const marker = view.getUint8(1);
    // Any number of FF may stand before a marker (B.1.1.2).
    if (marker === 0xff) at += 1;
    else if (isBare(marker)) at += 2;
    else if (isFrame(marker)) return readFrame(reader, at);
    else if (marker === SOS || marker === EOI) return null;
    else at += 2 + Math.max(2, view.getUint16(2));
  }
  return null;
}

async function readFrame(reader: ByteReader, at: number): Promise<PhotoHeader | null> {
  const view = await reader.view(at + 4, 6);
  if (!view) return null;
  const [height, width, components] = [view.getUint16(1), view.getUint16(3), view.getUint8(5)];
  if (width === 0 || height === 0 || ![1, 3, 4].includes(components)) return null;
  return {
    kind: 'jpeg',
    width,
    height,
    colours: components === 1 ? 'grey' : components === 4 ? 'inks' : 'rgb',
    hdr: false,
    complete: await hasEnd(reader, at),
  };
}

/** SOF0 to SOF15 without DHT, JPG and DAC, which lie between them. */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
}

/** Markers without a length: TEM, RST0 to RST7, SOI. */
function isBare(marker: number): boolean {
  return marker === 0x01 || (marker >= 0xd0 && marker <= SOI);
}

/** Most files end with the marker; those with something behind it (a second picture, a film) are gone through. */
async function hasEnd(reader: ByteReader, frameAt: number): Promise<boolean> {
  const tail = await reader.tail(TAIL_BYTES);
  let last = tail.length - 1;
  // Some cameras and programs pad the file with zeros.
  while (last > 0 && tail[last] === 0) last--;
  if (tail[last] === EOI && tail[last - 1] === 0xff) return true;
  return endLies(reader, frameAt);
}

/** Goes from marker to marker: over segments by their lengths, through coded data byte by byte. */
async function endLies(reader: ByteReader, frameAt: number): Promise<boolean> {
  let at = frameAt;
  while (at + 1 < reader.size) {
    const view = await reader.view(at, 2);
    if (view?.getUint8(0) !== 0xff) return false;
    const marker = view.getUint8(1);
    if (marker === EOI) return true;
    if (marker === 0xff) at += 1;
    else if (isBare(marker)) at += 2;
    else {
      const length = (await reader.view(at + 2, 2))?.getUint16(0);
      if (length === undefined) return false;
      at += 2 + Math.max(2, length);
      if (marker === SOS) at = await nextMarker(reader, at);
    }
  }
  return false;
}

/** In coded data FF is followed by 00, or by a restart marker (B.1.1.5). */
async function nextMarker(reader: ByteReader, from: number): Promise<number> {
  let at = from;
  while (at + 1 < reader.size) {
    const step = await reader.bytes(at, Math.min(STEP_BYTES, reader.size - at));
    if (!step) break;
    let found = step.indexOf(0xff);
    while (found >= 0 && found + 1 < step.length) {
      const next = step[found + 1]!;
      if (next !== 0 && !(next >= 0xd0 && next <= 0xd7)) return at + found;
      found = step.indexOf(0xff, found + 1);
    }
    // A marker may lie across two steps.
    at += Math.max(1, step.length - 1);
  }
  return reader.size;
}
