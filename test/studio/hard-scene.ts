/**
 * The harder half of readable photos: steep, far or very near, curled or folded paper, shade, a finger or glare over a
 * corner, wet paper, a strip that is bent or lies over the slot's edge, a card printed too small or too large, and a
 * table full of printed squares. Readable: the card's corners are in the picture, and the blur stays below
 * MAX_BLUR_MM. The lights are those of everyday: which lamp shines is another question than finding.
 */
import { FIDUCIALS } from '../../src/core/card/geometry.ts';
import { randomScene } from './random-scene.ts';
import { randomFrom, type Random } from './random.ts';
import type { Camera, Clutter, Cover, LaidStrip, PrintedCard, Scene, SheetShape, View } from './scene/types.ts';
import { CARD_CORNERS, project } from './scene/view.ts';
import type { StudioStrip } from './strips/strips.ts';

/** Standard deviation on the card, where it is seen smallest. */
const MAX_BLUR_MM = 0.5;
/** Below this share of the picture's width the card is taken by a larger picture, as phones do: px. */
const SMALL_CARD = 0.4;
export const SIZES = { usual: [1024, 768], large: [1632, 1224] } as const;

export function hardScene(seed: number, strip: StudioStrip): Scene {
  const random = randomFrom(seed).fork('hard');
  const cardFill = random.between(0.2, 0.985);
  const [widthPx, heightPx] = cardFill < SMALL_CARD ? SIZES.large : SIZES.usual;
  const base = randomScene(seed, 'hard', strip, { widthPx, heightPx });
  const everyday = randomScene(seed, 'everyday', strip);
  const view = fittingView(random.fork('view'), base.view, cardFill, widthPx, heightPx);
  const card = hardCard(random.fork('card'), base.card!);
  return {
    ...base,
    light: { ...base.light, main: everyday.light.main },
    card,
    strip: hardStrip(random.fork('strip'), base.strip!),
    covers: coverOf(random.fork('cover')),
    table: { ...base.table, clutter: [...base.table.clutter, ...printedThings(random.fork('things'), 3)] },
    view,
    camera: steadied(base.camera, view, widthPx, heightPx),
  };
}

/** Corners of the card stay in the picture. */
function fittingView(random: Random, base: View, cardFill: number, widthPx: number, heightPx: number): View {
  for (let tries = 0; ; tries++) {
    const spread = tries < 40 ? 0.12 : 0;
    const view: View = {
      ...base,
      cardFill,
      tiltDegrees: random.between(0, 45),
      tiltTowardsDegrees: random.between(0, 360),
      rollDegrees: tries < 40 ? random.between(0, 360) : 0,
      offset: [random.about(0, spread * (1 - cardFill)), random.about(0, spread * (1 - cardFill))],
    };
    const { toPicture } = project(view, widthPx, heightPx);
    const fits = CARD_CORNERS.every(([x, y]) => {
      const [u, v] = toPicture(x, y);
      return u > 2 && v > 2 && u < widthPx - 2 && v < heightPx - 2;
    });
    if (fits) return view;
  }
}

function hardCard(random: Random, base: PrintedCard): PrintedCard {
  const wet = random.chance(0.15)
    ? [{ xMm: random.between(0, 148), yMm: random.between(0, 105), sizeMm: random.between(6, 20) }]
    : [];
  const shape = shapeOf(random);
  return { ...base, scale: random.chance(0.5) ? random.between(0.9, 1.1) : 1, wet, ...(shape ? { shape } : {}) };
}

function shapeOf(random: Random): SheetShape | null {
  const kind = random.next();
  const up = random.chance(0.5) ? 1 : -1;
  const acrossDegrees = random.pick([0, 90]) + random.about(0, 6);
  if (kind < 0.3) return { kind: 'curl', acrossDegrees, riseMm: up * random.between(0.8, 6) };
  if (kind < 0.45) {
    return { kind: 'fold', acrossDegrees, atMm: random.about(0, 6), foldDegrees: up * random.between(3, 20) };
  }
  return null;
}

function hardStrip(random: Random, base: LaidStrip): LaidStrip {
  const overlaps = random.chance(0.15);
  const side = random.chance(0.5) ? 1 : -1;
  return {
    ...base,
    ...(overlaps ? { acrossMm: side * random.between(6, 9), angleDegrees: random.about(0, 1.5) } : {}),
    ...(random.chance(0.25) ? { bowMm: (random.chance(0.5) ? 1 : -1) * random.between(0.8, 4) } : {}),
  };
}

function coverOf(random: Random): Cover[] {
  if (!random.chance(0.15)) return [];
  const { xMm, yMm } = random.pick(FIDUCIALS);
  const [x, y] = [xMm + 7, yMm + 7];
  if (random.chance(0.4)) return [{ kind: 'glare', xMm: x, yMm: y, sizeMm: random.between(7, 12), strength: 1.5 }];
  // From outside the card, over its corner.
  const turnDegrees = (Math.atan2(y - 52.5, x - 74) * 180) / Math.PI + random.about(0, 15);
  const turn = (turnDegrees * Math.PI) / 180;
  return [{ kind: 'finger', xMm: x - 3 * Math.cos(turn), yMm: y - 3 * Math.sin(turn), turnDegrees }];
}

/** Printed squares beside the card. */
export function printedThings(random: Random, most: number, cardLies = true): Clutter[] {
  return Array.from({ length: Math.floor(random.between(0, most + 1)) }, (): Clutter | null => {
    const kind = random.pick(['code', 'calendar', 'frame', 'checker'] as const);
    const side = random.between(18, 70);
    const [widthMm, heightMm] = kind === 'calendar' ? [2 * side, 1.6 * side] : [side, side];
    const reach = Math.hypot(widthMm, heightMm) / 2;
    for (let i = 0; i < 12; i++) {
      const [xMm, yMm] = [74 + random.between(-200, 200), 52 + random.between(-170, 170)];
      const gap = Math.max(Math.abs(xMm - 74) - 76, Math.abs(yMm - 52.5) - 55);
      if (cardLies && gap < reach + 2) continue;
      return { kind, xMm, yMm, widthMm, heightMm, turnDegrees: random.between(0, 360), colour: [0.3, 0.3, 0.35] };
    }
    return null;
  }).filter((thing) => thing !== null);
}

/** Blur and shake within what a readable photo may have. */
function steadied(camera: Camera, view: View, widthPx: number, heightPx: number): Camera {
  const { pxPerMm } = project(view, widthPx, heightPx);
  const mostPx = MAX_BLUR_MM * pxPerMm * Math.cos((view.tiltDegrees * Math.PI) / 180);
  const blurPx = Math.hypot(camera.blurPx, camera.motion.lengthPx / Math.sqrt(12));
  const share = Math.min(1, mostPx / blurPx);
  const { lengthPx, turnDegrees } = camera.motion;
  return { ...camera, blurPx: camera.blurPx * share, motion: { lengthPx: lengthPx * share, turnDegrees } };
}
