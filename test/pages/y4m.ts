/** Films for the browser's fake camera: YUV4MPEG2, 4:2:0, ITU-R BT.601 in the video range. */
import { createHash } from 'node:crypto';
import { existsSync, renameSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';

/** @returns the film's path: one frame, which the fake camera shows over and over */
export async function filmOf(photo: string, widthPx: number): Promise<string> {
  const name = createHash('sha1').update(`${photo} ${widthPx}`).digest('hex').slice(0, 12);
  const path = join(tmpdir(), `dipwise-film-${name}.y4m`);
  if (existsSync(path)) return path;
  const image = sharp(photo).rotate().resize(widthPx).toColourspace('srgb').removeAlpha();
  const { data, info } = await image.raw().toBuffer({ resolveWithObject: true });
  // Another worker may be writing the same film.
  const draft = `${path}.${process.pid}`;
  writeFileSync(draft, film(data, info.width & ~1, info.height & ~1, info.width));
  renameSync(draft, path);
  return path;
}

/** @param stride pixels in a row of `rgb` */
function film(rgb: Buffer, width: number, height: number, stride: number): Buffer {
  const [half, down] = [width / 2, height / 2];
  const [y, u, v] = [Buffer.alloc(width * height), Buffer.alloc(half * down), Buffer.alloc(half * down)];
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const at = (row * stride + column) * 3;
      y[row * width + column] = Math.round(16 + luma(rgb[at]!, rgb[at + 1]!, rgb[at + 2]!));
    }
  }
  for (let row = 0; row < down; row++) {
    for (let column = 0; column < half; column++) {
      const mean = [0, 1, 2].map((c) => {
        const at = (2 * row * stride + 2 * column) * 3 + c;
        const below = at + 3 * stride;
        return (rgb[at]! + rgb[at + 3]! + rgb[below]! + rgb[below + 3]!) / 4;
      }) as [number, number, number];
      const light = (luma(...mean) * 255) / 219;
      u[row * half + column] = Math.round(128 + (mean[2] - light) * (112 / (255 * 0.886)));
      v[row * half + column] = Math.round(128 + (mean[0] - light) * (112 / (255 * 0.701)));
    }
  }
  const header = Buffer.from(`YUV4MPEG2 W${width} H${height} F30:1 Ip A1:1 C420\n`);
  return Buffer.concat([header, Buffer.from('FRAME\n'), y, u, v]);
}

function luma(r: number, g: number, b: number): number {
  return ((0.299 * r + 0.587 * g + 0.114 * b) * 219) / 255;
}
