/** Small pen drawings of a photo of the card: as it should be, and with one thing wrong. Path data, 120 by 90 units. */
import { Pen } from './ink.ts';

export const SKETCH_WIDTH = 120;
export const SKETCH_HEIGHT = 90;

export interface Sketch {
  /** Where the card lies in the photo. */
  readonly card?: 'whole' | 'none' | 'cut' | 'two' | 'screen' | 'folded' | 'plain' | 'other';
  readonly strip?: 'dipped' | 'none' | 'back' | 'dry' | 'other' | 'odd pad';
  /** Drawn over the photo. */
  readonly over?:
    | 'dark'
    | 'bright'
    | 'blur'
    | 'shadow'
    | 'soft shadow'
    | 'two lights'
    | 'glint'
    | 'glints'
    | 'grey'
    | 'filter'
    | 'tinted greys'
    | 'stain'
    | 'early'
    | 'late'
    | 'file';
}

export interface Strokes {
  /** Lines in ink, fine lines, lines in the accent, and paper laid over what is behind it. */
  readonly ink: string;
  readonly faint: string;
  readonly accent: string;
  readonly paper: string;
}

const CARD = { x: 18, y: 15, width: 84, height: 60 } as const;

class Drawing {
  readonly pen = new Pen(23);
  ink = '';
  faint = '';
  accent = '';
  paper = '';
}

export function sketchOf({ card = 'whole', strip = 'dipped', over }: Sketch): Strokes {
  const drawing = new Drawing();
  const { pen } = drawing;
  drawing.ink += pen.rect(2, 2, SKETCH_WIDTH - 4, SKETCH_HEIGHT - 4);
  if (over === 'file') return file(drawing);
  if (card === 'none') drawing.faint += table(pen);
  else if (card === 'two') {
    layCard(drawing, { x: 8, y: 26, width: 50, height: 36 }, 'whole', strip);
    layCard(drawing, { x: 63, y: 30, width: 50, height: 36 }, 'whole', strip);
  } else if (card === 'cut') layCard(drawing, { ...CARD, x: 54 }, card, strip);
  else layCard(drawing, CARD, card, strip);
  if (card === 'screen') {
    drawing.ink += pen.rect(9, 8, 102, 74) + pen.line([50, 82], [46, 88]) + pen.line([70, 82], [74, 88]);
    for (let y = 12; y < 80; y += 4) drawing.faint += pen.line([11, y], [109, y]);
  }
  if (over) OVER[over](drawing);
  return strokesOf(drawing);
}

function strokesOf({ ink, faint, accent, paper }: Drawing): Strokes {
  return { ink, faint, accent, paper };
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function layCard(drawing: Drawing, box: Box, card: NonNullable<Sketch['card']>, strip: NonNullable<Sketch['strip']>) {
  const { pen } = drawing;
  const [sx, sy] = [box.width / 84, box.height / 60];
  const at = (x: number, y: number, width: number, height: number) =>
    [box.x + x * sx, box.y + y * sy, width * sx, height * sy] as const;
  // What runs out of the photo isn't drawn.
  const inside = ([x, y, width, height]: readonly [number, number, number, number]) =>
    [x, y, Math.max(0, Math.min(width, SKETCH_WIDTH - 2 - x)), height] as const;
  const rect = (...place: Parameters<typeof at>) => pen.rect(...inside(at(...place)));
  const hatch = (gap: number, ...place: Parameters<typeof at>) => pen.hatch(...inside(at(...place)), gap);
  drawing.paper += `M${box.x} ${box.y}h${inside(at(0, 0, 84, 60))[2]}v${box.height}H${box.x}Z`;
  drawing.ink += rect(0, 0, 84, 60);
  const corners = [
    [3, 3],
    [73, 3],
    [3, 49],
    [73, 49],
  ] as const;
  for (const [x, y] of corners) {
    if (box.x + (x + 8) * sx > SKETCH_WIDTH - 2) continue;
    drawing.ink += rect(x, y, 8, 8) + hatch(card === 'other' ? 4 : 1.6, x + 1.5, y + 1.5, 5, 5);
  }
  for (let i = 0; i < 6; i++) {
    if (box.x + (16 + 9 * i) * sx > SKETCH_WIDTH - 8) continue;
    drawing.faint += hatch(4.4 - 0.6 * i, 14 + 9.4 * i, 13, 7, 6) + hatch(1.4 + 0.6 * i, 14 + 9.4 * i, 41, 7, 6);
    if (card !== 'plain') drawing.accent += hatch(2.4, 14 + 9.4 * i, 4, 7, 5) + hatch(2.4, 14 + 9.4 * i, 50, 7, 5);
  }
  drawing.ink += rect(8, 23, 68, 14);
  if (card === 'folded') {
    drawing.ink += pen.line([box.x + 40, box.y - 4], [box.x + 47, box.y + 64]);
    drawing.faint += pen.hatch(box.x + 42, box.y, 9, 60, 3);
  }
  if (card === 'cut') return;
  layStrip(drawing, { rect, hatch }, strip);
}

function layStrip(
  drawing: Drawing,
  {
    rect,
    hatch,
  }: {
    rect: (...p: [number, number, number, number]) => string;
    hatch: (gap: number, ...p: [number, number, number, number]) => string;
  },
  strip: NonNullable<Sketch['strip']>,
): void {
  if (strip === 'none') return;
  drawing.ink += rect(12, 27, 58, 6);
  if (strip === 'back') return;
  const pads = strip === 'other' ? [14, 19, 24, 29, 34, 39] : [15, 24, 33, 42];
  const width = strip === 'other' ? 3 : 5;
  pads.forEach((x, i) => {
    drawing.accent += rect(x, 27.6, width, 4.8);
    if (strip === 'dry') return;
    const gap = strip === 'odd pad' && i === 2 ? 0.7 : 2.6 - 0.4 * i;
    drawing.accent += hatch(gap, x, 27.6, width, 4.8);
  });
}

function table(pen: Pen): string {
  return [24, 46, 68].map((y) => pen.line([4, y], [SKETCH_WIDTH - 4, y + 3])).join('');
}

/** Rays round a small circle. */
function sun(pen: Pen, x: number, y: number): string {
  const rays = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => {
    const [c, s] = [Math.cos((i * Math.PI) / 4), Math.sin((i * Math.PI) / 4)];
    return pen.line([x + 5 * c, y + 5 * s], [x + 8.5 * c, y + 8.5 * s]);
  });
  return `M${x - 3} ${y}a3 3 0 1 0 6 0a3 3 0 1 0 -6 0${rays.join('')}`;
}

/** Rays of a reflection on a pad. */
function star(pen: Pen, x: number): string {
  const y = CARD.y + 30;
  const rays = [
    [7, 0],
    [0, 7],
    [4.5, 4.5],
    [4.5, -4.5],
  ] as const;
  return rays.map(([dx, dy]) => pen.line([x - dx, y - dy], [x + dx, y + dy])).join('');
}

function lamp(pen: Pen, x: number, y: number): string {
  return (
    `M${x - 2} ${y + 4}c-4-3-4-10 2-10s6 7 2 10z` +
    pen.line([x - 2, y + 6], [x + 2, y + 6]) +
    pen.line([x - 1.5, y + 8], [x + 1.5, y + 8])
  );
}

function clock(pen: Pen, hand: readonly [number, number]): string {
  return `M97 14a8 8 0 1 0 16 0a8 8 0 1 0 -16 0` + pen.line([105, 14], [105, 8.5]) + pen.line([105, 14], hand);
}

function file(drawing: Drawing): Strokes {
  const { pen } = drawing;
  drawing.ink += 'M42 16h26l12 12v46h-38z' + pen.line([68, 16], [68, 28]) + pen.line([68, 28], [80, 28]);
  drawing.faint += [38, 46, 54, 62].map((y) => pen.line([48, y], [74, y])).join('');
  drawing.accent += pen.line([36, 12], [86, 80]);
  return strokesOf(drawing);
}

const OVER: Readonly<Record<Exclude<Sketch['over'], undefined | 'file'>, (drawing: Drawing) => void>> = {
  dark: (drawing) => void (drawing.ink += drawing.pen.hatch(3, 3, SKETCH_WIDTH - 6, SKETCH_HEIGHT - 6, 3.2)),
  bright: (drawing) => {
    drawing.paper += `M${CARD.x + 12} ${CARD.y + 2}h60v20h-60z`;
    drawing.accent +=
      sun(drawing.pen, 60, 26) + drawing.pen.line([48, 36], [40, 48]) + drawing.pen.line([72, 36], [80, 48]);
  },
  blur: (drawing) => {
    const { pen } = drawing;
    for (const off of [-3, 3, 6]) drawing.faint += pen.rect(CARD.x + off, CARD.y + off / 2, CARD.width, CARD.height);
    for (const off of [-2, 2]) drawing.faint += pen.rect(CARD.x + 12 + off, CARD.y + 27 + off, 58, 6);
  },
  shadow: (drawing) => {
    drawing.ink += drawing.pen.hatch(64, 3, 53, 84, 2.6) + drawing.pen.line([64, 3], [64, 87]);
  },
  'soft shadow': (drawing) => {
    const { pen } = drawing;
    drawing.faint += pen.hatch(66, 3, 51, 84, 5) + pen.hatch(84, 3, 33, 84, 4) + pen.hatch(100, 3, 17, 84, 3);
  },
  'two lights': (drawing) => void (drawing.accent += sun(drawing.pen, 11, 11) + lamp(drawing.pen, 110, 12)),
  glint: (drawing) => void (drawing.ink += star(drawing.pen, CARD.x + 35.5)),
  glints: (drawing) => void (drawing.ink += [17.5, 26.5, 35.5].map((x) => star(drawing.pen, CARD.x + x)).join('')),
  grey: (drawing) => {
    drawing.faint += drawing.accent;
    drawing.accent = '';
  },
  filter: (drawing) => {
    const { pen } = drawing;
    drawing.accent += pen.rect(8, 8, 104, 74) + pen.hatch(8, 8, 104, 74, 9);
  },
  'tinted greys': (drawing) => {
    drawing.accent +=
      drawing.pen.hatch(CARD.x + 13, CARD.y + 12, 56, 8, 2) + drawing.pen.hatch(CARD.x + 13, CARD.y + 40, 56, 8, 2);
  },
  stain: (drawing) => {
    drawing.ink += `M${CARD.x + 50} ${CARD.y + 8}c12-8 26-2 24 8s-18 12-26 6-6-9 2-14z`;
    drawing.faint += drawing.pen.hatch(CARD.x + 52, CARD.y + 8, 18, 14, 2.5);
  },
  early: (drawing) => void (drawing.ink += clock(drawing.pen, [108, 11])),
  late: (drawing) => void (drawing.ink += clock(drawing.pen, [100, 17])),
};
