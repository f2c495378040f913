/** The bench's pictures, as a phone would have saved them; kept in a folder between runs where one is given. */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { decodePhoto } from '../../../src/cli/decode.ts';
import type { Pixels } from '../../../src/vision/pixels.ts';
import { encodeJpeg, render } from '../../studio/render.ts';
import type { Scene } from '../../studio/scene/types.ts';

/** @param name a file's, without its ending */
export async function pictureOf(name: string, scene: Scene, folder: string | null): Promise<Pixels> {
  const path = folder && join(folder, `${name}.jpg`);
  const kept = path ? await readFile(path).catch(() => null) : null;
  const jpeg = kept ?? (await encodeJpeg(await render(scene), scene.camera.jpegQuality));
  if (path && !kept) {
    await mkdir(folder, { recursive: true });
    await writeFile(path, jpeg);
  }
  const pixels = await decodePhoto(jpeg);
  if (!pixels) throw new Error(`${name} can't be opened`);
  return pixels;
}
