/** Photos that must not be read, each with the codes that would be right to refuse it by. */
import type { RefusalCode } from '../../src/core/reading/reading.ts';
import { FIDUCIALS } from '../../src/core/card/geometry.ts';
import { printedThings } from './hard-scene.ts';
import { randomScene } from './random-scene.ts';
import { randomFrom, type Random } from './random.ts';
import type { Camera, Scene, ScreenSpec } from './scene/types.ts';
import { project, type Point } from './scene/view.ts';
import { GARDEN_FOUR, PRACTICE_FIVE, PRACTICE_FOUR, type StudioStrip } from './strips/strips.ts';

export interface Unreadable {
  readonly cause: Cause;
  readonly scene: Scene;
  /** The scale that the visitor chose. */
  readonly scaleId: string;
}

type Make = (scene: Scene, random: Random) => Scene;

/** A phone's full picture, 12 megapixels: a screen is told by its own pixels, which smaller pictures blur together. */
const SCREEN_SIZE = [4032, 3024] as const;
const [WIDTH, HEIGHT] = [800, 600];

const MAKERS = {
  'no card': (scene) => ({ ...scene, card: null, strip: null }),
  'printed squares': (scene, random) => ({
    ...scene,
    card: null,
    strip: null,
    table: { ...scene.table, clutter: [...scene.table.clutter, ...printedThings(random, 12, false)] },
  }),
  'cut off': cutOff,
  blurred: (scene, random) => ({ ...scene, camera: blurred(scene, random) }),
  'too dark': (scene, random) => ({ ...scene, camera: { ...scene.camera, exposure: random.between(0.004, 0.035) } }),
  'blown out': (scene, random) => ({ ...scene, camera: { ...scene.camera, exposure: random.between(1.7, 4) } }),
  'no strip': (scene) => ({ ...scene, strip: null }),
  'another version': (scene, random) => ({
    ...scene,
    card: { ...scene.card!, version: Math.floor(random.between(2, 20)) },
  }),
  'on a screen': (scene, random) => onScreen(scene, random),
  'face down': (scene) => ({ ...scene, strip: { ...scene.strip!, faceDown: true } }),
  'another product': (scene) => scene,
  filter: (scene, random) => ({
    ...scene,
    // Paler and louder looks can be read, with a doubt: see the bench of doubts.
    camera: { ...scene.camera, filter: random.pick(['grey', 'faded-brown'] as const) },
  }),
  'glare over the pads': glareOverPads,
  dry: (scene) => ({ ...scene, strip: { ...scene.strip!, dry: 1 } }),
} satisfies Record<string, Make>;

export type Cause = keyof typeof MAKERS;

export const CAUSES = Object.keys(MAKERS) as Cause[];

/** What may be said; others refuse as well, but don't help. */
export const RIGHT_CODES: Readonly<Record<Cause, readonly RefusalCode[]>> = {
  'no card': ['no-card'],
  'printed squares': ['no-card'],
  'cut off': ['card-cut-off', 'no-card'],
  blurred: ['blurred'],
  'too dark': ['too-dark'],
  'blown out': ['blown-out'],
  'no strip': ['no-strip'],
  'another version': ['card-other-version'],
  'on a screen': ['on-a-screen'],
  'face down': ['strip-face-down'],
  'another product': ['strip-mismatch'],
  filter: ['no-colour'],
  'glare over the pads': ['glare-over-pads', 'strip-mismatch'],
  dry: ['pads-dry'],
};

/** The causes take turns. */
export function unreadable(index: number): Unreadable {
  const cause = CAUSES[index % CAUSES.length]!;
  const seed = 50_000 + index;
  const random = randomFrom(seed).fork('unreadable');
  const [laid, chosen] = random.pick(cause === 'another product' ? OTHER_PRODUCTS : SAME_PRODUCTS);
  const difficulty = random.chance(0.5) ? 'hard' : 'everyday';
  const scene = randomScene(seed, difficulty, laid, { widthPx: WIDTH, heightPx: HEIGHT });
  return { cause, scaleId: chosen.id, scene: (MAKERS[cause] as Make)(scene, random) };
}

const SAME_PRODUCTS: readonly (readonly [StudioStrip, StudioStrip])[] = [
  [PRACTICE_FOUR, PRACTICE_FOUR],
  [PRACTICE_FIVE, PRACTICE_FIVE],
];
const OTHER_PRODUCTS: readonly (readonly [StudioStrip, StudioStrip])[] = [
  [PRACTICE_FOUR, PRACTICE_FIVE],
  [PRACTICE_FIVE, PRACTICE_FOUR],
  [GARDEN_FOUR, PRACTICE_FOUR],
  [GARDEN_FOUR, PRACTICE_FIVE],
];

/** One corner fiducial or more lies across the picture's border or beyond it. */
function cutOff(scene: Scene, random: Random): Scene {
  for (;;) {
    const view = {
      ...scene.view,
      cardFill: random.between(0.6, 1.3),
      offset: [random.between(-0.45, 0.45), random.between(-0.45, 0.45)] as const,
    };
    const { toPicture } = project(view, WIDTH, HEIGHT);
    const inside = ([x, y]: Point) => x > 0 && y > 0 && x < WIDTH && y < HEIGHT;
    const whole = FIDUCIALS.filter(({ xMm, yMm }) =>
      [0, 14].every((dx) => [0, 14].every((dy) => inside(toPicture(xMm + dx, yMm + dy)))),
    );
    if (whole.length < FIDUCIALS.length && inside(toPicture(74, 52.5))) return { ...scene, view };
  }
}

/** Far beyond where greys run into one another: out of focus, shaken, or both. */
function blurred({ camera, view }: Scene, random: Random): Camera {
  const { pxPerMm } = project(view, WIDTH, HEIGHT);
  const px = random.between(1.1, 3) * pxPerMm;
  const shake = random.chance(0.4);
  return {
    ...camera,
    blurPx: shake ? 0.5 * px : px,
    motion: { lengthPx: shake ? 3.5 * px : 0, turnDegrees: random.between(0, 180) },
  };
}

/** Over half of the pads and more. */
function glareOverPads(scene: Scene, random: Random): Scene {
  const strip = scene.strip!;
  const count = strip.id === PRACTICE_FOUR.id ? PRACTICE_FOUR.pads.length : PRACTICE_FIVE.pads.length;
  const glare = Array.from({ length: Math.ceil(random.between(0.5, 1) * count) }, (_, pad) => ({
    pad,
    alongMm: random.about(0, 1),
    acrossMm: random.about(0, 1),
    sizeMm: random.between(2.5, 5),
    strength: random.between(0.3, 2),
  }));
  return { ...scene, strip: { ...strip, glare } };
}

/** A good photo of the day before, shown on a phone, a tablet or a monitor, and taken again. */
function onScreen(scene: Scene, random: Random): Scene {
  const shown: Scene = { ...scene, view: { ...scene.view, rollDegrees: 0 } };
  const screen: ScreenSpec = {
    shows: shown,
    kind: random.pick(['lcd', 'lcd', 'oled'] as const),
    widthMm: 148 / shown.view.cardFill,
    // A phone's 0.06 mm shown at half the card's size, to a monitor's 0.28 mm at its full size.
    pitchMm: random.between(0.1, 0.32),
    white: random.between(0.7, 1.6),
    black: random.between(0.0005, 0.004),
    reflection: random.between(0.005, 0.04),
  };
  const clean = { second: null, shadows: [], shading: [0, 0, 0, 0, 0] as const };
  const [widthPx, heightPx] = SCREEN_SIZE;
  return {
    ...scene,
    widthPx,
    heightPx,
    card: null,
    strip: null,
    covers: [],
    screen,
    light: { ...scene.light, ...clean, main: { kind: 'daylight', cctK: 6500 } },
    view: { ...scene.view, cardFill: random.between(0.6, 0.95), tiltDegrees: random.between(0, 25), offset: [0, 0] },
    table: { ...scene.table, clutter: [] },
  };
}
