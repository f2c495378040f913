/** Our card's finder against finders of printed codes, in the same scenes. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../../../src/core/card/geometry.ts';
import { findCard } from '../../../../src/vision/card/find-card.ts';
import { type Photo, photograph, randomShot, type Shot } from '../../../vision/pictures.ts';
import type { Canvas } from '../../../vision/pictures/canvas.ts';
import { figure, median, type Ratio, type Section, type Spread, spreadOf, spreadText } from '../section.ts';
import { type CodeFinder, startFinders } from './finders.ts';
import { CODE_TEXTS, type CodeSize, codeSheet } from './sheet.ts';

const SCENES = 60;
const FIRST_SEED = 70_000;
/** Looked at first, by all finders, and not counted: what is written in JavaScript is compiled when it runs often. */
const WARM_UP_SCENES = 20;
const FIRST_WARM_UP_SEED = 60_000;
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
  /** Of each scene. */
  readonly millis: readonly number[];
}

export async function findersSection(scenes = SCENES): Promise<Section> {
  const shotsFrom = (seed: number, count: number) =>
    Array.from({ length: count }, (_, i) => atTwoMegapixels(randomShot(seed + i)));
  const shots = shotsFrom(FIRST_SEED, scenes);
  const peers = await peersOf(await startFinders());
  for (const shot of shotsFrom(FIRST_WARM_UP_SEED, WARM_UP_SCENES)) {
    findCard(photograph(shot).pixels);
    for (const peer of peers) await peer.warmUp(shot);
  }
  const ours = { any: 0, millis: [] as number[] };
  // Scene by scene, all finders: a busy moment falls on all of them.
  for (const shot of shots) {
    const photo = photograph(shot);
    const started = performance.now();
    const { card } = findCard(photo.pixels);
    ours.millis.push(performance.now() - started);
    if (card && errorMm(photo, card) <= MAX_OFF_MM) ours.any++;
    for (const peer of peers) await peer.look(shot);
  }
  const own: Result = { name: 'our card', size: 'ours', any: ours.any, enough: ours.any, millis: ours.millis };
  const theirs = peers.map(({ result }) => result());
  return {
    tables: [tableOf([own, ...theirs], scenes, own)],
    ratios: theirs.map((one) => ratioOf(one, own)),
    atTheEnd: endOf(theirs, own),
  };
}

/** Against the fastest of those that find as many, and the fastest of all. */
function endOf(theirs: readonly Result[], own: Result): string {
  const fastest = (some: readonly Result[]) =>
    some.toSorted((one, other) => median(one.millis) - median(other.millis)).slice(0, 1);
  const told = (one: Result) => `${spreadText(timesOf(one, own))} times ${one.name}, ${SIZES[one.size]}`;
  const asSure = fastest(theirs.filter(({ enough }) => (enough ?? 0) >= own.enough!)).map(told);
  return `finding ${told(fastest(theirs)[0]!)} (fastest)${asSure.map((text) => `, ${text} (finds as many)`).join('')}`;
}

function timesOf(one: Result, own: Result): Spread {
  return spreadOf(own.millis.map((millis, i) => millis / one.millis[i]!));
}

/** The same scenes as in the tests of the finder, as a phone sees them: finer, and never mirrored. */
function atTwoMegapixels(shot: Shot): Shot {
  const [width, height] = shot.width > shot.height ? [1632, 1224] : [1224, 1632];
  return { ...shot, width, height, mirrored: false, blurPx: ((shot.blurPx ?? 0) * width) / shot.width };
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

interface Peer {
  /** A look that isn't counted. */
  warmUp(shot: Shot): Promise<void>;
  /** Looks once for its own codes in a scene. */
  look(shot: Shot): Promise<void>;
  result(): Result;
}

/** Each finder with each of its codes, small and large. */
async function peersOf(finders: readonly CodeFinder[]): Promise<Peer[]> {
  const peers: Peer[] = [];
  for (const size of ['fiducial', 'card'] as const) {
    for (const symbology of ['QRCode', 'DataMatrix'] as const) {
      const print: readonly Canvas[] = await codeSheet(symbology, size);
      for (const finder of finders.filter((one) => one.symbology === symbology)) {
        peers.push(await peerOf(finder, print, size));
      }
    }
  }
  return peers;
}

async function peerOf(finder: CodeFinder, print: readonly Canvas[], size: CodeSize): Promise<Peer> {
  const { name, symbology, findsSeveral } = finder;
  const texts: readonly string[] = size === 'card' ? CODE_TEXTS.slice(0, 1) : CODE_TEXTS;
  if ((await finder.find(photograph(PLAIN_SHOT, print).pixels, texts.length)).length === 0)
    throw new Error(`${name} doesn't read ${symbology} seen plainly`);
  let [any, enough] = [0, 0];
  const millis: number[] = [];
  const find = async ({ pixels }: Photo) => finder.find(pixels, texts.length);
  return {
    warmUp: async (shot) => void (await find(photograph(shot, print))),
    look: async (shot) => {
      const photo = photograph(shot, print);
      const started = performance.now();
      const said = await find(photo);
      millis.push(performance.now() - started);
      const right = new Set(said.filter((text) => texts.includes(text))).size;
      if (right > 0) any++;
      if (right >= Math.min(ENOUGH, texts.length)) enough++;
    },
    result: () => {
      const kind = symbology === 'QRCode' ? 'QR' : 'Data Matrix';
      const isCounted = findsSeveral || size === 'card';
      return { name: `${name}, ${kind}`, size, any, enough: isCounted ? enough : null, millis };
    },
  };
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
      `“enough” are three of four codes, or the only one. Median times over all scenes, found or not, after ${WARM_UP_SCENES} other scenes that aren’t counted; “ours over it” is the median over scenes, each looked at by all of them in turn, and where the middle half lies.`,
    head: ['finder', 'codes', 'at least one', 'enough', 'ms', 'ours over it'],
    rows: results.map(({ name, size, any, enough, millis }) => [
      name,
      SIZES[size],
      size === 'ours' ? '–' : share(any, scenes),
      enough === null ? 'finds only one' : share(enough, scenes),
      figure(median(millis)),
      size === 'ours' ? '1' : spreadText(timesOf({ name, size, any, enough, millis }, ours)),
    ]),
  };
}

function share(count: number, scenes: number): string {
  return `${count} (${((100 * count) / scenes).toFixed(0)} %)`;
}

function ratioOf(one: Result, ours: Result): Ratio {
  return {
    name: `finding / ${one.name}, ${one.size === 'card' ? 'large' : 'small'}`,
    ratio: timesOf(one, ours).median,
    wanted: null,
  };
}
