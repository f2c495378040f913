/** Photos that can't be used, though the command was asked well. */
import { photoMessage } from '../words/photo.ts';
import type { Pixels } from '../vision/pixels.ts';
import { openPhotoAt } from './decode.ts';

export class PhotoRefused extends Error {}

export function sentences({ wrong, remedy }: { wrong: string; remedy: string }): string {
  return `${wrong} ${remedy}`;
}

/** @throws PhotoRefused with a sentence when the file can't be opened or isn't a photo */
export async function photoAt(path: string): Promise<{ pixels: Pixels; factor: number }> {
  const opened = await openPhotoAt(path);
  if (!opened.ok) throw new PhotoRefused(`${path}: ${sentences(photoMessage(opened.failure))}`);
  return opened;
}
