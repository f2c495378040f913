/** The same scene at three sizes. */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';

const SAMPLE = 'poolside-12-megapixel.jpg';
/** Long sides, px, of pictures of 4 by 3. The sample's own is 4000. */
const SIDES = { 2: 1632, 12: 4000, 48: 8000 } as const;
const QUALITY = 92;

export type Megapixels = keyof typeof SIDES;
export const SIZES: readonly Megapixels[] = [2, 12, 48];

export const ABOUT_PHOTOS =
  `One simulated photo (${SAMPLE}), resized to ${SIDES[2]} and ${SIDES[48]} px and all three written anew as JPEG of ` +
  `quality ${QUALITY}, colour at half the fineness: the largest has no more detail than the middle one.`;

export interface SizedPhoto {
  readonly megapixels: Megapixels;
  readonly path: string;
  readonly width: number;
  readonly height: number;
  /** Id of its practice scale. */
  readonly scale: string;
}

export interface Photos {
  readonly photos: readonly SizedPhoto[];
  remove(): Promise<void>;
}

/** Writes the photos into a folder of their own; `remove` takes it away. */
export async function makePhotos(): Promise<Photos> {
  const folder = await mkdtemp(join(tmpdir(), 'dipwise-bench-'));
  const { photos } = JSON.parse(await readFile('sample-images/truth.json', 'utf8')) as {
    photos: { file: string; scale: string }[];
  };
  const { scale } = photos.find(({ file }) => file === SAMPLE)!;
  const made: SizedPhoto[] = [];
  for (const megapixels of SIZES) {
    const path = join(folder, `${megapixels}-megapixel.jpg`);
    const { data, info } = await sharp(`sample-images/${SAMPLE}`)
      .resize(SIDES[megapixels])
      .jpeg({ quality: QUALITY })
      .toBuffer({ resolveWithObject: true });
    await writeFile(path, data);
    made.push({ megapixels, path, width: info.width, height: info.height, scale });
  }
  return { photos: made, remove: () => rm(folder, { recursive: true, force: true }) };
}

/** RGBA, MB. */
export function decodedMB({ width, height }: Pick<SizedPhoto, 'width' | 'height'>): number {
  return (width * height * 4) / 1e6;
}
