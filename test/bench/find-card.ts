// How often, how exactly and how fast the card is found: `node test/bench/find-card.ts [SCENES]`.
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../src/core/card/geometry.ts';
import { assemble } from '../../src/vision/card/assemble.ts';
import { searchFiducials } from '../../src/vision/card/fiducials.ts';
import { findCard } from '../../src/vision/card/find-card.ts';
import { shrinkFactor, shrinkToGrey } from '../../src/vision/card/grey.ts';
import { mapCard } from '../../src/vision/card/map-card.ts';
import { flatten } from '../../src/vision/flatten.ts';
import { readCodes } from '../../src/vision/card-codes.ts';
import { sampleCard } from '../../src/vision/sample.ts';
import { emptyTable, type Photo, photograph, randomShot } from '../vision/pictures.ts';

accuracy(Number(process.argv[2] ?? 200));
for (const [width, height] of [
  [1632, 1224],
  [4000, 3000],
] as const) {
  stages(width, height);
}

function accuracy(scenes: number): void {
  const errors: number[] = [];
  let mistaken = 0;
  for (let i = 0; i < scenes; i++) {
    const photo = photograph(randomShot(1000 + i));
    const { card } = findCard(photo.pixels);
    if (card) errors.push(errorMm(photo, card.toPhoto, card.pxPerMm));
    if (findCard(emptyTable({ ...randomShot(9000 + i), clutter: 60 })).card) mistaken++;
  }
  errors.sort((one, other) => one - other);
  const share = (of: number) => errors[Math.round(of * (errors.length - 1))]!.toFixed(3);
  console.log(`found ${errors.length} of ${scenes}; seen where there was none: ${mistaken} of ${scenes}`);
  console.log(`largest error on a card, mm: median ${share(0.5)}, 95 % ${share(0.95)}, most ${share(1)}`);
}

function errorMm(photo: Photo, toPhoto: Photo['toPhoto'], pxPerMm: number): number {
  let most = 0;
  for (let xMm = 0; xMm <= CARD_WIDTH_MM; xMm += CARD_WIDTH_MM / 10) {
    for (let yMm = 0; yMm <= CARD_HEIGHT_MM; yMm += CARD_HEIGHT_MM / 7) {
      const [x, y] = toPhoto(xMm, yMm);
      const [trueX, trueY] = photo.toPhoto(xMm, yMm);
      most = Math.max(most, Math.hypot(x - trueX, y - trueY) / pxPerMm);
    }
  }
  return most;
}

/** Median milliseconds of each stage, engine and code warm. */
function stages(width: number, height: number): void {
  const shot = { ...randomShot(3), width, height, fill: 0.75, tiltDegrees: 20, turnDegrees: 20, curlMm: 0 };
  const photo = photograph({ ...shot, blurPx: width / 1600 }).pixels;
  const millis = new Map<string, number[]>();
  const time = <T>(stage: string, work: () => T): T => {
    const started = performance.now();
    const result = work();
    millis.set(stage, [...(millis.get(stage) ?? []), performance.now() - started]);
    return result;
  };
  for (let run = 0; run < 21; run++) {
    const grey = time('shrink', () => shrinkToGrey(photo, shrinkFactor(photo, 800)));
    const seen = time('fiducials', () =>
      searchFiducials(photo, grey, { method: 'local', window: 0.03, offset: 8, smoothPx: 0 }),
    );
    const placement = time('assemble', () => assemble(seen))[0]!;
    time('map', () => mapCard(photo, placement));
    const { card } = time('(find, all of it)', () => findCard(photo));
    const flat = time('flatten', () => flatten(photo, card!));
    time('sample', () => sampleCard(flat, readCodes(flat), null));
  }
  const medians = [...millis].map(([stage, runs]) => `${stage} ${runs.sort((a, b) => a - b)[10]!.toFixed(1)}`);
  console.log(`${width}x${height}, ms: ${medians.join(', ')}`);
}
