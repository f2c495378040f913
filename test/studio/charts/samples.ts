/**
 * Sample photos for teaching a scale: one owner's bottle, card and phone. The chart under two lights, the strip as it
 * comes out of the bottle, and a dipped strip some weeks later.
 */
import { randomScene } from '../random-scene.ts';
import type { Camera, Illumination, LaidStrip, PrintedCard, Scene, Table, View } from '../scene/types.ts';
import { GARDEN_FOUR } from '../strips/strips.ts';
import { chartFor, withChart } from './chart-scene.ts';

export interface ChartSample {
  readonly file: string;
  readonly shows: 'chart' | 'strip' | 'reading';
  readonly caption: string;
  /** The light in words. */
  readonly light: string;
  readonly scene: Scene;
}

const CARD: PrintedCard = {
  variant: 'colour',
  printer: {
    dotGain: 0.07,
    n: 1.5,
    blackDensity: 1.34,
    blackWarmth: 0.006,
    strength: [0.97, 1.04, 1.01],
    greys: 'black',
  },
  paper: { level: 0.87, yellowness: 0.01, brightener: 0.07 },
  marginMm: [0.6, 0.4, 0.8, 0.5],
  mottle: 0.011,
};

const PHONE: Camera = {
  family: 'birch',
  unit: 41,
  exposure: 0.66,
  whiteBalance: [1.01, 0.99],
  tone: 'gentle',
  saturation: 1.06,
  turning: 1,
  localTone: 0.03,
  flare: 0.008,
  vignetting: 0.06,
  shotNoise: 0.009,
  readNoise: 0.0012,
  blurPx: 0.75,
  motion: { lengthPx: 0, turnDegrees: 0 },
  sharpening: 0.3,
  jpegQuality: 80,
};

const SHADE: Illumination = {
  main: { kind: 'leaves', cctK: 7600, share: 0.1 },
  second: null,
  shading: [0.03, 0.02, 0, 0.005, 0],
  shadows: [],
  fromDegrees: 230,
  softness: 0.3,
};

const LAMP: Illumination = {
  main: { kind: 'led', tone: 'neutral', shiftNm: 1 },
  second: null,
  shading: [-0.03, 0.04, 0, 0, 0],
  shadows: [],
  fromDegrees: 300,
  softness: 0.5,
};

const EVENING: Illumination = { ...SHADE, main: { kind: 'daylight', cctK: 8300 }, shading: [-0.02, 0.035, 0, 0, 0] };

const BENCH: Table = { kind: 'plastic', colour: [0.72, 0.7, 0.66], turnDegrees: 20, clutter: [] };

interface Story {
  readonly seed: number;
  readonly size: readonly [widthPx: number, heightPx: number];
  readonly light: Illumination;
  readonly view: Partial<View>;
  readonly camera?: Partial<Camera>;
  readonly strip?: Partial<LaidStrip>;
}

function sceneOf({ seed, size: [widthPx, heightPx], light, view, camera, strip }: Story): Scene {
  const base = randomScene(seed, 'everyday', GARDEN_FOUR, { widthPx, heightPx });
  return {
    ...base,
    light,
    card: CARD,
    table: BENCH,
    camera: { ...PHONE, ...camera },
    view: { ...base.view, bend: 0.004, focal: 0.74, ...view },
    strip: { ...base.strip!, ...strip },
  };
}

const LEAFLET = chartFor({ strip: 'garden-four', side: 'below', apartMm: 9, turnDegrees: -2 });

export const CHART_SAMPLES: readonly ChartSample[] = [
  {
    file: 'charts/chart-open-shade.jpg',
    shows: 'chart',
    caption: 'The leaflet of the garden strip below the card, in open shade',
    light: 'open shade, 7600 K',
    scene: withChart(
      sceneOf({
        seed: 601,
        size: [1800, 2400],
        light: SHADE,
        view: { tiltDegrees: 7, tiltTowardsDegrees: 260 },
      }),
      LEAFLET,
    ),
  },
  {
    file: 'charts/chart-neutral-lamp.jpg',
    shows: 'chart',
    caption: 'The same leaflet and card indoors, under a neutral lamp',
    light: 'neutral white LED lamp, 4100 K',
    scene: withChart(
      sceneOf({
        seed: 602,
        size: [1800, 2400],
        light: LAMP,
        view: { tiltDegrees: 5, tiltTowardsDegrees: 80 },
        camera: { whiteBalance: [0.985, 1.02], exposure: 0.62 },
      }),
      { ...LEAFLET, turnDegrees: 1.5, xMm: LEAFLET.xMm - 4 },
    ),
  },
  {
    file: 'charts/strip-dry.jpg',
    shows: 'strip',
    caption: 'A dry strip from the bottle in the slot of the card',
    light: 'open shade, 7600 K',
    scene: sceneOf({
      seed: 603,
      size: [1600, 1200],
      light: SHADE,
      view: { cardFill: 0.8, tiltDegrees: 5, tiltTowardsDegrees: 250, rollDegrees: 2, offset: [0, 0] },
      strip: {
        // Dry pads show what their dyes are like before any water: as in water that holds nothing.
        values: { 'free-chlorine': 0, ph: 6.8, 'total-alkalinity': 0, 'cyanuric-acid': 0 },
        veil: 0,
        glints: 0,
        reversed: false,
        alongMm: 3,
        acrossMm: 0.6,
        angleDegrees: 0.8,
      },
    }),
  },
  {
    file: 'charts/reading-evening.jpg',
    shows: 'reading',
    caption: 'A dipped strip from the same bottle on the same card, some weeks later',
    light: 'evening sky, 8300 K',
    scene: sceneOf({
      seed: 604,
      size: [2000, 1500],
      light: EVENING,
      view: { cardFill: 0.78, tiltDegrees: 9, tiltTowardsDegrees: 100, rollDegrees: -4, offset: [0.01, 0.01] },
      camera: { whiteBalance: [1.015, 0.985], exposure: 0.6 },
      strip: {
        values: { 'free-chlorine': 1.6, ph: 7.4, 'total-alkalinity': 95, 'cyanuric-acid': 45 },
        veil: 0.008,
        glints: 2,
        reversed: true,
        alongMm: -4,
        acrossMm: -1,
        angleDegrees: -1.2,
      },
    }),
  },
];
