/** Pictures as text for files. */
import { withoutMetadata } from '../../core/log/picture.ts';

/** btoa takes a string of bytes; in pieces, for no call takes a million arguments. */
const PIECE = 0x6000;

export function toBase64(bytes: Uint8Array): string {
  let text = '';
  // Pieces of a multiple of three bytes join without padding between them.
  for (let at = 0; at < bytes.length; at += PIECE) text += btoa(String.fromCharCode(...bytes.subarray(at, at + PIECE)));
  return text;
}

/** @returns null for what isn't a whole JPEG; a JPEG without its metadata otherwise */
export function jpegFromBase64(base64: string): Uint8Array<ArrayBuffer> | null {
  try {
    return withoutMetadata(Uint8Array.from(atob(base64), (character) => character.charCodeAt(0)));
  } catch {
    return null;
  }
}
