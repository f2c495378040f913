import { readdirSync, readFileSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { render } from './render.ts';
import { SAMPLES } from './samples.ts';
import { truthFor, truthText } from './truth.ts';

const folder = new URL('../../sample-images/', import.meta.url);
const fileOf = (file: string) => new URL(file, folder);
const readable = SAMPLES.filter((sample) => !sample.refused);

// A check of consistency only: the kept truth and the script that writes it say the same.
test('truth.json is what the script computes', () => {
  expect(readFileSync(fileOf('truth.json'), 'utf8')).toBe(truthText());
});

test('every picture has its truth and every truth its picture', () => {
  const kept = ['', 'refused/'].flatMap((part) =>
    readdirSync(fileOf(part || '.'))
      .filter((file) => file.endsWith('.jpg'))
      .map((file) => part + file),
  );
  expect(kept.sort()).toEqual(SAMPLES.map((sample) => sample.file).sort());
});

test('enough of them, of both scales, and not too heavy to clone', () => {
  expect(readable.length).toBeGreaterThanOrEqual(12);
  expect(new Set(readable.map((sample) => sample.scene.strip!.id)).size).toBe(2);
  const bytes = SAMPLES.reduce((sum, sample) => sum + statSync(fileOf(sample.file)).size, 0);
  expect(bytes).toBeLessThan(8_000_000);
});

test('the pads of no readable picture are off the printed scale, save where the truth says so', () => {
  const off = readable.filter((sample) => Object.keys(truthFor(sample).offScale ?? {}).length > 0);
  expect(off.map((sample) => sample.file)).toEqual(['after-the-rain.jpg', 'after-shock-treatment.jpg']);
});

describe.each(SAMPLES.filter((sample) => sample.scene.card).map((sample) => ({ file: sample.file, sample })))(
  '$file',
  ({ file, sample }) => {
    test('the card is wholly in the picture unless it is meant to be cut off', () => {
      const { card, widthPx, heightPx } = truthFor(sample);
      const inside = card!.every(([u, v]) => u! > 0 && u! < widthPx && v! > 0 && v! < heightPx);
      expect(inside).toBe(sample.refused !== 'card-cut-off');
    });

    test('is stored at its size and says that it is simulated', async () => {
      const stored = await sharp(fileURLToPath(fileOf(file))).metadata();
      expect(stored.orientation ?? 1).toBe(sample.orientation ?? 1);
      const upright = sample.orientation ? [stored.height, stored.width] : [stored.width, stored.height];
      expect(upright).toEqual([sample.scene.widthPx, sample.scene.heightPx]);
      expect(readFileSync(fileOf(file)).includes('Simulated picture')).toBe(true);
    });
  },
);

// Consistency again, over the whole studio: a change of what is rendered has to come with new pictures.
// The larger one takes longer, and is looked at before a release.
test('refused/no-strip.jpg is what the studio renders today', () => expectAsRendered('refused/no-strip.jpg'));
test('held-upright.jpg is what the studio renders today', { tags: 'release' }, () =>
  expectAsRendered('held-upright.jpg'),
);

async function expectAsRendered(file: string): Promise<void> {
  const sample = SAMPLES.find((one) => one.file === file)!;
  const picture = await render(sample.scene);
  const kept = await sharp(fileURLToPath(fileOf(file)))
    .rotate()
    .removeAlpha()
    .raw()
    .toBuffer();
  let off = 0;
  let count = 0;
  for (let i = 0; i < picture.width * picture.height; i += 53) {
    for (let c = 0; c < 3; c++) off += Math.abs(kept[3 * i + c]! - picture.data[4 * i + c]!);
    count += 3;
  }
  expect(off / count).toBeLessThan(4);
}
