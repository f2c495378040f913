/** Pictures are kept without what cameras write into them: place, time, maker. */

const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const COMMENT = 0xfe;
const ICC = [...'ICC_PROFILE\0'].map((letter) => letter.charCodeAt(0));

/**
 * A JPEG without its comments and application segments, other than JFIF, the colour profile and Adobe's transform
 * (ITU-T T.81 annex B), and without what follows its end. The picture itself isn't touched; one that holds none
 * of these comes back as it was.
 * @returns null when the bytes aren't a JPEG that can be followed to its end
 */
export function withoutMetadata(jpeg: Uint8Array): Uint8Array<ArrayBuffer> | null {
  if (jpeg[0] !== 0xff || jpeg[1] !== SOI) return null;
  const kept: [from: number, to: number][] = [[0, 2]];
  let at = 2;
  while (jpeg[at] === 0xff) {
    const marker = jpeg[at + 1];
    if (marker === undefined) return null;
    if (marker === EOI) {
      kept.push([at, at + 2]);
      return gather(jpeg, kept);
    }
    if (marker === 0xff) {
      // Any marker may be preceded by fill bytes.
      at += 1;
      continue;
    }
    const length = (jpeg[at + 2]! << 8) | jpeg[at + 3]!;
    let end = at + 2 + length;
    if (length < 2 || end > jpeg.length) return null;
    if (marker === SOS) end = endOfScan(jpeg, end);
    if (!isMetadata(jpeg, at, marker)) kept.push([at, end]);
    at = end;
  }
  return null;
}

/** In a scan's data FF is followed by 00 or a restart marker; anything else is the next segment. */
function endOfScan(jpeg: Uint8Array, start: number): number {
  for (let at = start; at + 1 < jpeg.length; at++) {
    const next = jpeg[at + 1]!;
    if (jpeg[at] === 0xff && next !== 0 && (next < 0xd0 || next > 0xd7)) return at;
  }
  return jpeg.length;
}

function isMetadata(jpeg: Uint8Array, at: number, marker: number): boolean {
  if (marker === COMMENT) return true;
  if (marker < 0xe0 || marker > 0xef) return false;
  if (marker === 0xe2) return !ICC.every((letter, i) => jpeg[at + 4 + i] === letter);
  return marker !== 0xe0 && marker !== 0xee;
}

function gather(bytes: Uint8Array, parts: readonly (readonly [number, number])[]): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(parts.reduce((sum, [from, to]) => sum + to - from, 0));
  let to = 0;
  for (const [from, end] of parts) {
    out.set(bytes.subarray(from, end), to);
    to += end - from;
  }
  return out;
}
