/**
 * The sample photos, one by one. The pool is invented: 5.5 m round, salt chlorinator, in a hillside garden.
 * Each starts from a random scene of its seed and changes what its story needs.
 */
import { randomScene, type Difficulty } from './random-scene.ts';
import type { Camera, Illumination, LaidStrip, PrintedCard, Scene, Table, View } from './scene/types.ts';
import { PRACTICE_FIVE, PRACTICE_FOUR, type StudioStrip } from './strips/strips.ts';

export interface Sample {
  readonly file: string;
  /** For a gallery. */
  readonly caption: string;
  /** The light in words. */
  readonly light: string;
  readonly scene: Scene;
  /** EXIF orientation the phone would write; the scene itself is upright. */
  readonly orientation?: 6 | 8;
  /** Why it must be refused. */
  readonly refused?: string;
}

interface Story {
  readonly size: readonly [widthPx: number, heightPx: number];
  readonly difficulty?: Difficulty;
  readonly values: LaidStrip['values'];
  readonly light: Partial<Illumination>;
  readonly view: Partial<View>;
  readonly table: Partial<Table>;
  readonly camera: Partial<Camera>;
  readonly strip?: Partial<LaidStrip>;
  readonly card?: Partial<PrintedCard>;
}

/** A hand at rest and a sensor in good light: what a phone's own noise reduction leaves. */
const STEADY: Partial<Camera> = { motion: { lengthPx: 0, turnDegrees: 0 }, shotNoise: 0.009, readNoise: 0.0012 };

const EVEN: Pick<Illumination, 'second' | 'shadows'> = { second: null, shadows: [] };

function sceneOf(seed: number, strip: StudioStrip, story: Story): Scene {
  const [widthPx, heightPx] = story.size;
  const base = randomScene(seed, story.difficulty ?? 'everyday', strip, { widthPx, heightPx });
  return {
    ...base,
    light: { ...base.light, ...EVEN, ...story.light },
    view: { ...base.view, ...story.view },
    table: { ...base.table, ...story.table },
    camera: { ...base.camera, ...STEADY, ...story.camera },
    card: { ...base.card!, variant: 'colour', ...story.card },
    strip: { ...base.strip!, ...story.strip, values: story.values },
  };
}

const TERRACE_WOOD = { kind: 'wood', colour: [0.6, 0.44, 0.3] } as const;
const GREY_DECK = { kind: 'deck', colour: [0.55, 0.5, 0.44] } as const;

const IN_FOUR: readonly Sample[] = [
  {
    file: 'open-shade-terrace.jpg',
    caption: 'Open shade on the terrace table, an ordinary day',
    light: 'open shade: blue sky with some light off leaves, 7800 K',
    scene: sceneOf(101, PRACTICE_FOUR, {
      size: [3264, 2448],
      values: { 'free-chlorine': 2.2, ph: 7.4, 'total-alkalinity': 95, 'total-hardness': 210 },
      light: { main: { kind: 'leaves', cctK: 7800, share: 0.14 } },
      view: { cardFill: 0.74, tiltDegrees: 9, rollDegrees: -5, offset: [0.01, 0.02] },
      table: TERRACE_WOOD,
      camera: { family: 'birch', tone: 'gentle', jpegQuality: 76 },
      strip: { reversed: false },
    }),
  },
  {
    file: 'overcast-deck.jpg',
    caption: 'Under a grey sky on the deck, the card lying crosswise',
    light: 'overcast sky, 6700 K',
    scene: sceneOf(102, PRACTICE_FOUR, {
      size: [2560, 1920],
      values: { 'free-chlorine': 1.1, ph: 7.7, 'total-alkalinity': 120, 'total-hardness': 260 },
      light: { main: { kind: 'daylight', cctK: 6700 }, softness: 0.15 },
      view: { cardFill: 0.82, tiltDegrees: 6, rollDegrees: 93, offset: [0.02, 0] },
      table: GREY_DECK,
      camera: { family: 'alder', tone: 'contrasty', jpegQuality: 78 },
      strip: { reversed: true },
    }),
  },
  {
    file: 'sun-through-haze.jpg',
    caption: 'Hazy sun on the stone edge: sharper shadows, light falling off to one side',
    light: 'hazy sun, 5500 K',
    scene: sceneOf(103, PRACTICE_FOUR, {
      size: [2560, 1920],
      values: { 'free-chlorine': 3.4, ph: 7.25, 'total-alkalinity': 80, 'total-hardness': 180 },
      light: {
        main: { kind: 'daylight', cctK: 5500 },
        softness: 0.9,
        fromDegrees: 215,
        shading: [0.09, -0.06, 0, 0.01, 0],
      },
      view: { cardFill: 0.66, tiltDegrees: 20, tiltTowardsDegrees: 280, rollDegrees: 12, offset: [-0.03, 0.02] },
      table: { kind: 'stone', colour: [0.66, 0.62, 0.55] },
      camera: { family: 'cedar', tone: 'filmic', exposure: 0.62, jpegQuality: 76 },
      strip: { reversed: false, glints: 4 },
    }),
  },
  {
    file: 'kitchen-warm-lamp.jpg',
    caption: 'Indoors in the evening under a warm LED lamp: the hardest light for any card',
    light: 'warm white LED lamp, 2700 K',
    scene: sceneOf(104, PRACTICE_FOUR, {
      size: [2560, 1920],
      values: { 'free-chlorine': 0.8, ph: 7.5, 'total-alkalinity': 105, 'total-hardness': 240 },
      light: { main: { kind: 'led', tone: 'warm', shiftNm: 0 }, shading: [-0.08, 0.07, 0.01, 0, 0.01] },
      view: { cardFill: 0.78, tiltDegrees: 12, rollDegrees: 3, offset: [0, -0.02] },
      table: { kind: 'cloth', colour: [0.72, 0.66, 0.55] },
      camera: { family: 'elm', tone: 'bright', whiteBalance: [1.06, 0.92], jpegQuality: 84 },
      strip: { reversed: true },
    }),
  },
  {
    file: 'utility-room-tubes.jpg',
    caption: 'In the pump room under fluorescent tubes',
    light: 'three-band fluorescent tubes, 4000 K',
    scene: sceneOf(105, PRACTICE_FOUR, {
      size: [2560, 1920],
      values: { 'free-chlorine': 4.5, ph: 7.9, 'total-alkalinity': 140, 'total-hardness': 300 },
      light: { main: { kind: 'tri-band', tone: 'cool' }, shading: [0.05, 0.05, 0, 0, 0] },
      view: { cardFill: 0.7, tiltDegrees: 14, tiltTowardsDegrees: 90, rollDegrees: 184, offset: [0.02, 0.03] },
      table: { kind: 'concrete', colour: [0.58, 0.57, 0.54] },
      camera: { family: 'damson', tone: 'gentle', jpegQuality: 82 },
      strip: { reversed: false },
    }),
  },
  {
    file: 'window-and-lamp.jpg',
    caption: 'By the window with a lamp on the other side: two lights at once',
    light: 'daylight from a window, 6300 K, with a warm LED lamp from the other side',
    scene: sceneOf(106, PRACTICE_FOUR, {
      size: [2560, 1920],
      values: { 'free-chlorine': 1.9, ph: 7.45, 'total-alkalinity': 90, 'total-hardness': 225 },
      light: {
        main: { kind: 'daylight', cctK: 6300 },
        second: {
          light: { kind: 'led', tone: 'warm', shiftNm: 1 },
          share: 0.22,
          towardsDegrees: 20,
          rise: 0.14,
        },
        shading: [-0.06, 0.03, 0, 0, 0],
      },
      view: { cardFill: 0.8, tiltDegrees: 8, rollDegrees: -8, offset: [0, 0.01] },
      table: { kind: 'wood', colour: [0.76, 0.62, 0.46] },
      camera: { family: 'birch', tone: 'contrasty', jpegQuality: 76 },
      strip: { reversed: true },
    }),
  },
  {
    file: 'steep-angle-tiles.jpg',
    caption: 'Taken from far to one side, 35 degrees off, on the pool tiles',
    light: 'overcast sky, 6900 K',
    scene: sceneOf(107, PRACTICE_FOUR, {
      size: [3264, 2448],
      values: { 'free-chlorine': 2.6, ph: 7.35, 'total-alkalinity': 85, 'total-hardness': 195 },
      light: { main: { kind: 'daylight', cctK: 6900 } },
      view: { cardFill: 0.72, tiltDegrees: 35, tiltTowardsDegrees: 250, rollDegrees: 17, offset: [0.02, 0.02] },
      table: { kind: 'tiles', colour: [0.42, 0.6, 0.68] },
      camera: { family: 'alder', tone: 'plain', jpegQuality: 76 },
      strip: { reversed: false, angleDegrees: 3.5, acrossMm: 2.5 },
    }),
  },
  {
    file: 'after-the-rain.jpg',
    caption: 'After a week of rain: acid water with hardly any alkalinity, below the pH scale',
    light: 'overcast sky, 7400 K',
    scene: sceneOf(108, PRACTICE_FOUR, {
      size: [2304, 1728],
      values: { 'free-chlorine': 0.3, ph: 6, 'total-alkalinity': 25, 'total-hardness': 90 },
      light: { main: { kind: 'daylight', cctK: 7400 } },
      view: { cardFill: 0.7, tiltDegrees: 10, rollDegrees: 272, offset: [0, 0] },
      table: GREY_DECK,
      camera: { family: 'cedar', tone: 'gentle', jpegQuality: 76 },
      strip: { reversed: false },
    }),
  },
];

const IN_FIVE: readonly Sample[] = [
  {
    file: 'poolside-12-megapixel.jpg',
    caption: 'Full size, 12 megapixels, in the shade of the house by the pool',
    light: 'open shade, 8600 K',
    scene: sceneOf(201, PRACTICE_FIVE, {
      size: [4000, 3000],
      values: { 'free-chlorine': 2.4, ph: 7.5, 'total-alkalinity': 100, 'total-hardness': 250, 'cyanuric-acid': 40 },
      light: { main: { kind: 'leaves', cctK: 8600, share: 0.08 } },
      view: { cardFill: 0.7, tiltDegrees: 11, rollDegrees: 4, offset: [0.01, -0.01] },
      table: { kind: 'tiles', colour: [0.72, 0.7, 0.64] },
      camera: { family: 'birch', tone: 'filmic', exposure: 0.6, jpegQuality: 76 },
      strip: { reversed: true },
    }),
  },
  {
    file: 'late-evening-stone.jpg',
    caption: 'Late evening under a deep blue sky, the card upside down',
    light: 'evening sky, 10,500 K',
    scene: sceneOf(202, PRACTICE_FIVE, {
      size: [2560, 1920],
      values: { 'free-chlorine': 1.3, ph: 7.7, 'total-alkalinity': 130, 'total-hardness': 310, 'cyanuric-acid': 65 },
      light: { main: { kind: 'daylight', cctK: 10_500 } },
      view: { cardFill: 0.76, tiltDegrees: 13, rollDegrees: 178, offset: [0.01, 0] },
      table: { kind: 'stone', colour: [0.45, 0.45, 0.46] },
      camera: { family: 'alder', tone: 'bright', exposure: 0.55, jpegQuality: 76 },
      strip: { reversed: false },
    }),
  },
  {
    file: 'held-upright.jpg',
    caption: 'The phone held upright, as most people hold it, under a neutral lamp',
    light: 'neutral white LED lamp, 4100 K',
    orientation: 6,
    scene: sceneOf(203, PRACTICE_FIVE, {
      size: [1920, 2560],
      values: { 'free-chlorine': 3.1, ph: 7.3, 'total-alkalinity': 90, 'total-hardness': 220, 'cyanuric-acid': 30 },
      light: { main: { kind: 'led', tone: 'neutral', shiftNm: -1 } },
      view: { cardFill: 0.9, tiltDegrees: 10, rollDegrees: 2, offset: [0, 0.04] },
      table: { kind: 'cloth', colour: [0.42, 0.5, 0.6] },
      camera: { family: 'damson', tone: 'gentle', jpegQuality: 82 },
      strip: { reversed: true },
    }),
  },
  {
    file: 'under-the-pergola.jpg',
    caption: 'Under the vines: green light and the soft edge of a shadow over the card',
    light: 'sky through leaves, 7200 K, with a soft shadow',
    scene: sceneOf(204, PRACTICE_FIVE, {
      size: [2560, 1920],
      values: { 'free-chlorine': 1.6, ph: 7.6, 'total-alkalinity': 110, 'total-hardness': 270, 'cyanuric-acid': 55 },
      light: {
        main: { kind: 'leaves', cctK: 7200, share: 0.32 },
        shadows: [{ acrossDegrees: 60, atMm: 55, softMm: 60, depth: 0.28 }],
      },
      view: { cardFill: 0.68, tiltDegrees: 16, tiltTowardsDegrees: 40, rollDegrees: -14, offset: [0.03, 0.02] },
      table: TERRACE_WOOD,
      camera: { family: 'cedar', tone: 'contrasty', jpegQuality: 78 },
      strip: { reversed: false },
    }),
  },
  {
    file: 'black-only-card.jpg',
    caption: 'A card from a black-and-white printer, with no colour patches',
    light: 'overcast sky, 6500 K',
    scene: sceneOf(205, PRACTICE_FIVE, {
      size: [2560, 1920],
      values: { 'free-chlorine': 2.8, ph: 7.4, 'total-alkalinity': 75, 'total-hardness': 190, 'cyanuric-acid': 45 },
      light: { main: { kind: 'daylight', cctK: 6500 } },
      view: { cardFill: 0.8, tiltDegrees: 7, rollDegrees: 6, offset: [0, 0] },
      table: { kind: 'concrete', colour: [0.62, 0.6, 0.57] },
      camera: { family: 'birch', tone: 'plain', jpegQuality: 84 },
      card: { variant: 'black' },
      strip: { reversed: false },
    }),
  },
  {
    file: 'small-and-cluttered.jpg',
    caption: 'The card small among other things on the table',
    light: 'open shade, 7500 K',
    scene: sceneOf(218, PRACTICE_FIVE, {
      size: [3264, 2448],
      difficulty: 'hard',
      values: { 'free-chlorine': 2, ph: 7.55, 'total-alkalinity': 95, 'total-hardness': 235, 'cyanuric-acid': 35 },
      light: { main: { kind: 'leaves', cctK: 7500, share: 0.1 }, shading: [0.05, 0.04, 0, 0, 0] },
      view: { cardFill: 0.42, tiltDegrees: 18, rollDegrees: 23, offset: [-0.08, 0.06] },
      table: { kind: 'wood', colour: [0.5, 0.36, 0.25] },
      camera: {
        family: 'alder',
        tone: 'gentle',
        whiteBalance: [1.02, 0.98],
        exposure: 0.65,
        blurPx: 0.9,
        vignetting: 0.08,
        flare: 0.01,
        jpegQuality: 74,
      },
      strip: { reversed: true, glints: 3 },
    }),
  },
  {
    file: 'after-shock-treatment.jpg',
    caption: 'The day after a shock treatment: chlorine and pH above their scales',
    light: 'open shade, 8000 K',
    scene: sceneOf(207, PRACTICE_FIVE, {
      size: [2560, 1920],
      values: { 'free-chlorine': 14, ph: 8.7, 'total-alkalinity': 160, 'total-hardness': 290, 'cyanuric-acid': 50 },
      light: { main: { kind: 'leaves', cctK: 8000, share: 0.1 } },
      view: { cardFill: 0.78, tiltDegrees: 9, rollDegrees: -3, offset: [0, 0.02] },
      table: { kind: 'plastic', colour: [0.84, 0.84, 0.82] },
      camera: { family: 'cedar', tone: 'filmic', exposure: 0.6, jpegQuality: 84 },
      strip: { reversed: false },
    }),
  },
];

/** Photos that can't be read, each with the code that should say so. */
function refusable(): Sample[] {
  const story: Story = {
    size: [1632, 1224],
    values: { 'free-chlorine': 2.1, ph: 7.4, 'total-alkalinity': 95, 'total-hardness': 220 },
    light: { main: { kind: 'leaves', cctK: 7600, share: 0.12 } },
    view: { cardFill: 0.7, tiltDegrees: 10, rollDegrees: 4, offset: [0, 0] },
    table: TERRACE_WOOD,
    camera: { family: 'birch', tone: 'gentle', jpegQuality: 76 },
  };
  const base = sceneOf(301, PRACTICE_FOUR, story);
  const light = 'open shade, 7600 K';
  const scenes: readonly (readonly [file: string, code: string, caption: string, change: Partial<Scene>])[] = [
    ['no-card.jpg', 'no-card', 'The table without a card', { card: null, strip: null }],
    [
      'card-cut-off.jpg',
      'card-cut-off',
      'One end of the card lies outside the picture',
      { view: { ...base.view, cardFill: 0.8, offset: [0.24, 0.05] } },
    ],
    ['no-strip.jpg', 'no-strip', 'The card with an empty slot', { strip: null }],
    [
      'blurred.jpg',
      'blurred',
      'Out of focus and shaken',
      { camera: { ...base.camera, blurPx: 9, motion: { lengthPx: 24, turnDegrees: 30 }, sharpening: 0 } },
    ],
    [
      'too-dark.jpg',
      'too-dark',
      'At night without a lamp',
      { camera: { ...base.camera, exposure: 0.022, shotNoise: 0.015, readNoise: 0.003, tone: 'plain' } },
    ],
    [
      'blown-out.jpg',
      'blown-out',
      'In full sun with the exposure set for the shade',
      { light: { ...base.light, main: { kind: 'daylight', cctK: 5400 } }, camera: { ...base.camera, exposure: 2.3 } },
    ],
  ];
  return scenes.map(([file, refused, caption, change], i) => ({
    file: `refused/${file}`,
    caption,
    light,
    refused,
    scene: { ...base, seed: 301 + i, ...change },
  }));
}

export const SAMPLES: readonly Sample[] = [...IN_FOUR, ...IN_FIVE, ...refusable()];
