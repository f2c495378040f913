/** Writes sample-images/: `npm run samples`, or with parts of file names to make only those. */
import { mkdir, writeFile } from 'node:fs/promises';
import sharp from 'sharp';
import { CHART_SAMPLES } from './charts/samples.ts';
import { chartTruthText } from './charts/truth.ts';
import { encodeJpeg, render, type Picture } from './render.ts';
import { SAMPLES, type Sample } from './samples.ts';
import { truthText } from './truth.ts';

const FOLDER = new URL('../../sample-images/', import.meta.url);

/** The picture as the sensor holds it when the phone is turned. */
async function asStored(picture: Picture, orientation: Sample['orientation']): Promise<Picture> {
  if (!orientation) return picture;
  const { width, height, data } = picture;
  const turned = await sharp(Buffer.from(data.buffer, data.byteOffset, data.byteLength), {
    raw: { width, height, channels: 4 },
  })
    .rotate(orientation === 6 ? 270 : 90)
    .raw()
    .toBuffer();
  return { data: new Uint8ClampedArray(turned), width: height, height: width };
}

async function make(sample: Pick<Sample, 'file' | 'scene' | 'orientation'>): Promise<number> {
  const picture = await asStored(await render(sample.scene), sample.orientation);
  const jpeg = await encodeJpeg(picture, sample.scene.camera.jpegQuality, sample.orientation);
  await writeFile(new URL(sample.file, FOLDER), jpeg);
  return jpeg.length;
}

const wanted = process.argv.slice(2);
for (const part of ['refused/', 'charts/']) await mkdir(new URL(part, FOLDER), { recursive: true });
let total = 0;
for (const sample of [...SAMPLES, ...CHART_SAMPLES]) {
  if (wanted.length > 0 && !wanted.some((name) => sample.file.includes(name))) continue;
  const bytes = await make(sample);
  total += bytes;
  console.log(`${sample.file}: ${Math.round(bytes / 1000)} kB`);
}
await writeFile(new URL('truth.json', FOLDER), truthText());
await writeFile(new URL('charts/truth.json', FOLDER), chartTruthText());
console.log(`${Math.round(total / 1000)} kB in all`);
