/** Writes sample-images/: `npm run samples`, or with parts of file names to make only those. */
import { mkdir, writeFile } from 'node:fs/promises';
import sharp from 'sharp';
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

async function make(sample: Sample): Promise<number> {
  const picture = await asStored(await render(sample.scene), sample.orientation);
  const jpeg = await encodeJpeg(picture, sample.scene.camera.jpegQuality, sample.orientation);
  await writeFile(new URL(sample.file, FOLDER), jpeg);
  return jpeg.length;
}

const wanted = process.argv.slice(2);
await mkdir(new URL('refused/', FOLDER), { recursive: true });
let total = 0;
for (const sample of SAMPLES) {
  if (wanted.length > 0 && !wanted.some((name) => sample.file.includes(name))) continue;
  const bytes = await make(sample);
  total += bytes;
  console.log(`${sample.file}: ${Math.round(bytes / 1000)} kB`);
}
await writeFile(new URL('truth.json', FOLDER), truthText());
console.log(`${Math.round(total / 1000)} kB in all`);
