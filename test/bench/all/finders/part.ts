/** Our card's finder against finders of printed codes, in the same scenes. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../../../src/core/card/geometry.ts';
import { findCard } from '../../../../src/vision/card/find-card.ts';
import { type Photo, photograph, randomShot, type Shot } from '../../../vision/pictures.ts';
import type { Canvas } from '../../../vision/pictures/canvas.ts';
import { figure, median, type Ratio, type Section } from '../section.ts';
import { type CodeFinder, startFinders } from './finders.ts';
import { CODE_TEXTS, type CodeSize, codeSheet, type Symbology } from './sheet.ts';

const SCENES = 60;
const FIRST_SEED = 70_000;
/** A card placed further off than this isn't found. */
const MAX_OFF_MM = 2;
/** As many as our card needs of its four. */
const ENOUGH = 3;

/** Straight from above in plain light: what a finder misses here, it can't be asked to find. */
const PLAIN_SHOT: Shot = {
  seed: 1,
  width: 1632,
  height: 1224,
  fill: 0.6,
  turnDegrees: 0,
  tiltDegrees: 0,
  tiltAxisDegrees: 0,
  blurPx: 0.6,
};

interface Result {
  readonly name: string;
  readonly size: CodeSize | 'ours';
  /** Scenes in which at least one code was found, and in which enough were; null where it can't look for several. */
  readonly any: number;
  readonly enough: number | null;
  /** Median over all scenes. */
  readonly millis: number;
}

export async function findersSection(scenes = SCENES): Promise<Section> {
  const shots = Array.from({ length: scenes }, (_, i) => atTwoMegapixels(randomShot(FIRST_SEED + i)));
  const finders = await startFinders();
  const ours = await findOurs(shots);
  const theirs: Result[] = [];
  for (const size of ['fiducial', 'card'] as const)
    for (const symbology of ['QRCode', 'DataMatrix'] as const)
      theirs.push(...(await findCodes(shots, finders, symbology, size)));
  return { tables: [tableOf([ours, ...theirs], scenes, ours)], ratios: theirs.map((one) => ratioOf(one, ours)) };
}

/** The same scenes as in the tests of the finder, as a phone sees them: finer, and never mirrored. */
function atTwoMegapixels(shot: Shot): Shot {
  const [width, height] = shot.width > shot.height ? [1632, 1224] : [1224, 1632];
  return { ...shot, width, height, mirrored: false, blurPx: ((shot.blurPx ?? 0) * width) / shot.width };
}

async function findOurs(shots: readonly Shot[]): Promise<Result> {
  findCard(photograph(shots[0]!).pixels);
  const times: number[] = [];
  let found = 0;
  for (const shot of shots) {
    const photo = photograph(shot);
    const started = performance.now();
    const { card } = findCard(photo.pixels);
    times.push(performance.now() - started);
    if (card && errorMm(photo, card) <= MAX_OFF_MM) found++;
  }
  return { name: 'our card', size: 'ours', any: found, enough: found, millis: median(times) };
}

/** Largest error at the card's corners. */
function errorMm(photo: Photo, card: Pick<Photo, 'toPhoto'> & { readonly pxPerMm: number }): number {
  const corners = [0, CARD_WIDTH_MM].flatMap((xMm) => [0, CARD_HEIGHT_MM].map((yMm) => [xMm, yMm] as const));
  return Math.max(
    ...corners.map(([xMm, yMm]) => {
      const [[x, y], [trueX, trueY]] = [card.toPhoto(xMm, yMm), photo.toPhoto(xMm, yMm)];
      return Math.hypot(x - trueX, y - trueY) / card.pxPerMm;
    }),
  );
}

async function findCodes(
  shots: readonly Shot[],
  finders: readonly CodeFinder[],
  symbology: Symbology,
  size: CodeSize,
): Promise<Result[]> {
  const able = finders.filter((finder) => finder.symbology === symbology);
  const print: readonly Canvas[] = await codeSheet(symbology, size);
  const texts: readonly string[] = size === 'card' ? CODE_TEXTS.slice(0, 1) : CODE_TEXTS;
  const tallies = able.map(() => ({ any: 0, enough: 0, times: [] as number[] }));
  const plain = photograph(PLAIN_SHOT, print).pixels;
  for (const { name, find } of able)
    if ((await find(plain, texts.length)).length === 0)
      throw new Error(`${name} doesn't read ${symbology} seen plainly`);
  for (const shot of shots) {
    const { pixels } = photograph(shot, print);
    for (const [i, finder] of able.entries()) {
      const tally = tallies[i]!;
      const started = performance.now();
      const said = await finder.find(pixels, texts.length);
      tally.times.push(performance.now() - started);
      const right = new Set(said.filter((text) => texts.includes(text))).size;
      if (right > 0) tally.any++;
      if (right >= Math.min(ENOUGH, texts.length)) tally.enough++;
    }
  }
  return able.map(({ name, findsSeveral }, i) => {
    const { any, enough, times } = tallies[i]!;
    const kind = symbology === 'QRCode' ? 'QR' : 'Data Matrix';
    const isCounted = findsSeveral || size === 'card';
    return { name: `${name}, ${kind}`, size, any, enough: isCounted ? enough : null, millis: median(times) };
  });
}

const SIZES = {
  ours: 'four fiducials',
  fiducial: 'four, each as a fiducial',
  card: 'one as large as the card',
} as const;

function tableOf(results: readonly Result[], scenes: number, ours: Result) {
  return {
    title: 'Finding the card',
    about:
      `${scenes} scenes of 2 megapixels, tilted to 45 degrees, a quarter to the whole of the width, blurred, noisy, in ` +
      `shadow, among clutter; the same scenes for all, with the sheet's print exchanged. Each library looks for its own ` +
      `code with its own settings (qr without its limit of time), the codes the coarsest of their kinds. Our card needs three of its four fiducials; ` +
      `“enough” are three of four codes, or the only one. Median times over all scenes, found or not.`,
    head: ['finder', 'codes', 'at least one', 'enough', 'ms', 'ours over it'],
    rows: results.map(({ name, size, any, enough, millis }) => [
      name,
      SIZES[size],
      size === 'ours' ? '–' : share(any, scenes),
      enough === null ? 'finds only one' : share(enough, scenes),
      figure(millis),
      figure(ours.millis / millis),
    ]),
  };
}

function share(count: number, scenes: number): string {
  return `${count} (${((100 * count) / scenes).toFixed(0)} %)`;
}

function ratioOf({ name, size, millis }: Result, ours: Result): Ratio {
  return {
    name: `finding / ${name}, ${size === 'card' ? 'large' : 'small'}`,
    ratio: ours.millis / millis,
    wanted: null,
  };
}
