/** Scenes as people would make them: an everyday half and a harder half. */
import type { PadQuantity } from '../../src/core/measurement/quantities.ts';
import { FAMILY_NAMES, type FamilyName } from './camera/sensors.ts';
import { TONE_NAMES } from './camera/tone.ts';
import { randomFrom, type Random } from './random.ts';
import type {
  Camera,
  Clutter,
  Illumination,
  LaidStrip,
  LightSpec,
  PrintedCard,
  Scene,
  Shadow,
  Table,
  TableKind,
  View,
} from './scene/types.ts';
import { CARD_CORNERS, project } from './scene/view.ts';
import type { StudioStrip } from './strips/strips.ts';

export type Difficulty = 'everyday' | 'hard';

export interface SceneOptions {
  readonly widthPx?: number;
  readonly heightPx?: number;
  /** Camera families to draw from: keep some out of tuning. */
  readonly families?: readonly FamilyName[];
}

export function randomScene(
  seed: number,
  difficulty: Difficulty,
  strip: StudioStrip,
  options: SceneOptions = {},
): Scene {
  const random = randomFrom(seed);
  const hard = difficulty === 'hard';
  const { widthPx = 1600, heightPx = 1200 } = options;
  const view = fittingView(random.fork('view'), hard, widthPx, heightPx);
  return {
    seed,
    widthPx,
    heightPx,
    light: randomLight(random.fork('light'), hard),
    card: randomCard(random.fork('card'), hard),
    strip: randomStrip(random.fork('strip'), hard, strip),
    table: randomTable(random.fork('table'), hard),
    view,
    camera: randomCamera(random.fork('camera'), hard, options.families ?? FAMILY_NAMES, widthPx),
  };
}

const between = (random: Random, hard: boolean, easy: readonly [number, number], hardest: readonly [number, number]) =>
  random.between(...(hard ? hardest : easy));

/** The whole card stays in the picture. */
function fittingView(random: Random, hard: boolean, widthPx: number, heightPx: number): View {
  for (;;) {
    const view = randomView(random, hard);
    const projection = project(view, widthPx, heightPx);
    const inside = CARD_CORNERS.every(([x, y]) => {
      const [u, v] = projection.toPicture(x, y);
      return u > 0.008 * widthPx && u < 0.992 * widthPx && v > 0.008 * heightPx && v < 0.992 * heightPx;
    });
    if (inside) return view;
  }
}

function randomView(random: Random, hard: boolean): View {
  const quarter = random.pick(hard ? [0, 90, 180, 270] : [0, 0, 0, 90, 180, 270]);
  return {
    cardFill: between(random, hard, [0.5, 0.92], [0.25, 0.95]),
    tiltDegrees: between(random, hard, [0, 24], [10, 38]),
    tiltTowardsDegrees: random.between(0, 360),
    rollDegrees: quarter + random.about(0, hard ? 25 : 6),
    offset: [random.about(0, hard ? 0.09 : 0.03), random.about(0, hard ? 0.09 : 0.03)],
    focal: random.between(0.7, 0.8),
    bend: random.about(0, hard ? 0.012 : 0.006),
  };
}

const EVERYDAY_LIGHTS: readonly ((random: Random) => LightSpec)[] = [
  (random) => ({ kind: 'daylight', cctK: random.between(5200, 6000) }),
  (random) => ({ kind: 'daylight', cctK: random.between(6000, 7200) }),
  (random) => ({ kind: 'daylight', cctK: random.between(7200, 10_000) }),
  (random) => ({ kind: 'leaves', cctK: random.between(6500, 9500), share: random.between(0.08, 0.35) }),
  (random) => ({ kind: 'led', tone: 'neutral', shiftNm: random.about(0, 2) }),
];

const OTHER_LIGHTS: readonly ((random: Random) => LightSpec)[] = [
  (random) => ({ kind: 'led', tone: 'warm', shiftNm: random.about(0, 2) }),
  (random) => ({ kind: 'led', tone: 'cool', shiftNm: random.about(0, 2) }),
  () => ({ kind: 'tri-band', tone: 'cool' }),
  () => ({ kind: 'tri-band', tone: 'warm' }),
  (random) => ({ kind: 'planck', temperatureK: random.between(2500, 2900) }),
];

function randomLight(random: Random, hard: boolean): Illumination {
  const pick = () => random.pick(hard ? [...EVERYDAY_LIGHTS, ...OTHER_LIGHTS] : EVERYDAY_LIGHTS)(random);
  const main = random.chance(hard ? 0.3 : 0.12) ? random.pick(OTHER_LIGHTS)(random) : pick();
  const slope = hard ? 0.14 : 0.06;
  return {
    main,
    second: random.chance(hard ? 0.35 : 0.1)
      ? {
          light: random.pick([...EVERYDAY_LIGHTS, ...OTHER_LIGHTS])(random),
          share: random.between(0.1, 0.4),
          towardsDegrees: random.between(0, 360),
          rise: random.between(0, hard ? 0.35 : 0.12),
        }
      : null,
    shading: [
      random.about(0, slope),
      random.about(0, slope),
      random.about(0, slope / 4),
      random.about(0, slope / 4),
      random.about(0, slope / 4),
    ],
    shadows: hard && random.chance(0.3) ? [randomShadow(random)] : [],
    fromDegrees: random.between(0, 360),
    softness: random.between(0.1, 0.9),
  };
}

function randomShadow(random: Random): Shadow {
  return {
    acrossDegrees: random.between(0, 360),
    atMm: random.between(-60, 90),
    softMm: random.between(4, 40),
    depth: random.between(0.15, 0.5),
  };
}

function randomCard(random: Random, hard: boolean): PrintedCard {
  return {
    variant: random.chance(0.15) ? 'black' : 'colour',
    printer: {
      dotGain: hard ? random.between(0.02, 0.18) : random.between(0.03, 0.13),
      n: random.between(1.35, 1.75),
      blackDensity: random.between(1.15, 1.5),
      blackWarmth: random.about(0, 0.02),
      strength: [random.about(1, 0.06), random.about(1, 0.06), random.about(1, 0.06)],
      greys: 'black',
    },
    paper: {
      level: random.between(0.83, 0.9),
      yellowness: hard ? random.between(0, 0.06) : random.between(0, 0.03),
      brightener: random.between(0, 0.14),
    },
    marginMm: [random.about(0.5, 0.9), random.about(0.5, 0.9), random.about(0.5, 0.9), random.about(0.5, 0.9)],
    mottle: random.between(0.006, 0.022),
  };
}

function randomStrip(random: Random, hard: boolean, strip: StudioStrip): LaidStrip {
  const room = (112 - strip.lengthMm) / 2;
  return {
    id: strip.id,
    values: Object.fromEntries(strip.pads.map((pad) => [pad.parameter, valueWithin(random, pad.values)])) as Record<
      PadQuantity,
      number
    >,
    alongMm: random.between(-1, 1) * Math.min(room, hard ? 12 : 6),
    acrossMm: random.between(-1, 1) * (hard ? 4 : 2),
    angleDegrees: random.between(-1, 1) * (hard ? 5 : 2),
    reversed: random.chance(0.5),
    veil: between(random, hard, [0.002, 0.018], [0.004, 0.035]),
    glints: random.pick(hard ? [1, 3, 6] : [0, 1, 3]),
    strengths: strip.pads.map(() => random.about(1, 0.025)),
    mottle: random.between(0.02, 0.07),
  };
}

/** A value between the blocks, spread evenly over the chart rather than over the numbers. */
function valueWithin(random: Random, blocks: readonly number[]): number {
  const at = random.between(0.15, blocks.length - 1.15);
  const low = Math.floor(at);
  const value = blocks[low]! + (at - low) * (blocks[low + 1]! - blocks[low]!);
  return Math.round(value * 100) / 100;
}

const TABLE_COLOURS: Readonly<Record<TableKind, readonly (readonly [number, number, number])[]>> = {
  wood: [
    [0.62, 0.45, 0.3],
    [0.42, 0.29, 0.2],
    [0.78, 0.64, 0.47],
  ],
  deck: [
    [0.55, 0.5, 0.45],
    [0.5, 0.38, 0.28],
  ],
  cloth: [
    [0.42, 0.5, 0.6],
    [0.72, 0.66, 0.55],
    [0.6, 0.32, 0.3],
  ],
  stone: [
    [0.6, 0.6, 0.58],
    [0.35, 0.35, 0.37],
    [0.72, 0.65, 0.56],
  ],
  tiles: [
    [0.4, 0.58, 0.66],
    [0.75, 0.72, 0.66],
  ],
  plastic: [
    [0.85, 0.85, 0.83],
    [0.3, 0.38, 0.34],
  ],
  concrete: [
    [0.62, 0.6, 0.57],
    [0.5, 0.5, 0.5],
  ],
};

function randomTable(random: Random, hard: boolean): Table {
  const kind = random.pick(Object.keys(TABLE_COLOURS) as TableKind[]);
  const count = Math.round(between(random, hard, [1, 5], [3, 9]));
  return {
    kind,
    colour: random.pick(TABLE_COLOURS[kind]),
    turnDegrees: random.between(0, 180),
    clutter: Array.from({ length: count }, () => randomThing(random)).filter((thing) => thing !== null),
  };
}

type Thing = Exclude<Clutter['kind'], 'code' | 'calendar'>;

const SIZES: Readonly<Record<Thing, readonly [widthMm: number, heightMm: number]>> = {
  book: [130, 180],
  leaflet: [105, 148],
  checker: [72, 72],
  coin: [23, 23],
  pen: [140, 9],
  towel: [220, 160],
  leaf: [48, 22],
  frame: [90, 60],
  lid: [38, 38],
};

const THING_COLOURS = [
  [0.16, 0.3, 0.42],
  [0.7, 0.28, 0.2],
  [0.82, 0.68, 0.3],
  [0.28, 0.45, 0.3],
  [0.85, 0.82, 0.76],
  [0.2, 0.2, 0.22],
  [0.62, 0.6, 0.58],
] as const;

/** Something beside the card, never on it; null when no room was found. */
function randomThing(random: Random): Clutter | null {
  const kind = random.pick(Object.keys(SIZES) as Thing[]);
  const scale = random.between(0.8, 1.2);
  const [widthMm, heightMm] = [SIZES[kind][0] * scale, SIZES[kind][1] * scale];
  const reach = Math.hypot(widthMm, heightMm) / 2;
  for (let i = 0; i < 12; i++) {
    const [xMm, yMm] = [74 + random.between(-230, 230), 52 + random.between(-200, 200)];
    const gapX = Math.abs(xMm - 74) - 76;
    const gapY = Math.abs(yMm - 52.5) - 55;
    if (Math.max(gapX, gapY) < reach * 0.98 + 2) continue;
    const colour = kind === 'leaf' ? ([0.35, 0.5, 0.22] as const) : random.pick(THING_COLOURS);
    return { kind, xMm, yMm, widthMm, heightMm, turnDegrees: random.between(0, 360), colour };
  }
  return null;
}

function randomCamera(random: Random, hard: boolean, families: readonly FamilyName[], widthPx: number): Camera {
  // Small pictures are shrunk large ones: less blur and noise to the pixel.
  const scale = Math.min(1, widthPx / 4000);
  const noise = random.between(0.4, hard ? 1.6 : 1);
  return {
    family: random.pick(families),
    unit: Math.floor(random.between(0, 1000)),
    exposure: between(random, hard, [0.55, 0.85], [0.4, 0.92]),
    whiteBalance: balanceError(random, hard),
    tone: random.pick(TONE_NAMES),
    saturation: random.between(0.98, 1.16),
    turning: 1,
    localTone: random.between(0, hard ? 0.12 : 0.06),
    flare: random.between(0.002, hard ? 0.04 : 0.02),
    vignetting: random.between(0.02, hard ? 0.2 : 0.1),
    shotNoise: 0.022 * noise * Math.sqrt(scale),
    readNoise: 0.004 * noise * Math.sqrt(scale),
    blurPx: 0.45 + between(random, hard, [0.3, 0.9], [0.4, 2.2]) * scale,
    motion: {
      lengthPx: random.chance(hard ? 0.4 : 0.15) ? random.between(1, hard ? 7 : 3) * scale : 0,
      turnDegrees: random.between(0, 180),
    },
    sharpening: random.between(0, 0.6),
    jpegQuality: Math.round(random.between(78, 94)),
  };
}

/** Phones err mostly between blue and amber, far less between green and magenta. */
function balanceError(random: Random, hard: boolean): readonly [number, number] {
  const warmth = random.about(0, hard ? 0.08 : 0.045);
  const tint = random.about(0, hard ? 0.022 : 0.013);
  return [1 + warmth + tint, 1 - 1.1 * warmth + tint];
}
