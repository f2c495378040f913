/**
 * Pictures of the card for the tests of finding and flattening: the printed
 * shapes seen by a pinhole camera at a known place, on a table with clutter.
 * Only geometry is physical here; colours are plain multiplications.
 */
import { drawCard } from '../../src/core/card/drawing.ts';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, type CardVariant } from '../../src/core/card/geometry.ts';
import type { Point } from '../../src/core/card/homography.ts';
import type { Pixels } from '../../src/vision/pixels.ts';

export interface Shot {
  readonly seed: number;
  readonly width: number;
  readonly height: number;
  /** Width of the card's outline in the picture over the picture's width; less where its height wouldn't fit. */
  readonly fill: number;
  readonly turnDegrees: number;
  readonly tiltDegrees: number;
  /** About which direction in the card's plane it is tilted. */
  readonly tiltAxisDegrees: number;
  readonly mirrored?: boolean;
  /** Gaussian, standard deviation in px. */
  readonly blurPx?: number;
  /** Standard deviation in levels of 255. */
  readonly noise?: number;
  /** Darkening from one side of the picture to the other, 0 to 1. */
  readonly shade?: number;
  /** Darkening behind a shadow's edge across the card, 0 to 1. */
  readonly shadow?: number;
  readonly light?: number;
  readonly table?: readonly [number, number, number];
  readonly clutter?: number;
  /** Radial distortion at the corner of the picture, as a share of its half diagonal. */
  readonly lens?: number;
  /** Height of the card's left and right edges above its middle, mm. */
  readonly curlMm?: number;
  readonly variant?: CardVariant;
  /** Moves the card in the picture, as a share of the picture's size. */
  readonly shift?: Point;
  /** Rectangles on the card covered by something skin-coloured, mm: x, y, width, height. */
  readonly covers?: readonly (readonly [number, number, number, number])[];
}

export interface Photo {
  readonly pixels: Pixels;
  /** True place in the picture of a place on the card. */
  toPhoto(xMm: number, yMm: number): Point;
}

export type Random = () => number;

/** Mulberry32: small and the same everywhere. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** RGB as floats 0-255, three to a pixel. */
interface Canvas {
  readonly rgb: Float32Array;
  readonly width: number;
  readonly height: number;
}

type Colour = readonly [number, number, number];

const PAPER = 238;
const SOLID = 34;

/** The card as printed, at 20 px/mm and each half of that in turn. */
function cardLevels(variant: CardVariant): readonly Canvas[] {
  const scale = 20;
  const card = blank(CARD_WIDTH_MM * scale, CARD_HEIGHT_MM * scale, [PAPER, PAPER, PAPER]);
  for (const shape of drawCard(variant)) {
    if (shape.kind === 'boxes') {
      const paint = shape.paint;
      const colour: Colour =
        'ink' in paint ? grey(paint.ink) : [paint.srgb[0] * PAPER, paint.srgb[1] * PAPER, paint.srgb[2] * PAPER];
      for (const { xMm, yMm, widthMm, heightMm } of shape.boxes) {
        fillBox(card, xMm * scale, yMm * scale, (xMm + widthMm) * scale, (yMm + heightMm) * scale, colour);
      }
    } else if (shape.kind === 'disc') {
      fillDisc(card, shape.xMm * scale, shape.yMm * scale, (shape.diameterMm / 2) * scale);
    } else {
      // Type as upright strokes: what matters here is that something dark is there.
      const step = shape.sizeMm * 0.45;
      const length = shape.text.length * step;
      const start = shape.anchor === 'start' ? 0 : shape.anchor === 'end' ? -length : -length / 2;
      for (let i = 0; i < shape.text.length; i++) {
        if (shape.text[i] === ' ') continue;
        const along = start + i * step;
        const [x, y, w, h] =
          shape.turnDegrees === 0
            ? [shape.xMm + along, shape.yMm - shape.sizeMm * 0.6, step * 0.5, shape.sizeMm * 0.6]
            : [shape.xMm, shape.yMm + along, shape.sizeMm * 0.6, step * 0.5];
        fillBox(card, x * scale, y * scale, (x + w) * scale, (y + h) * scale, grey(1));
      }
    }
  }
  const levels = [card];
  for (let i = 0; i < 4; i++) levels.push(halve(levels[i]!));
  return levels;
}

const levelsOf = new Map<CardVariant, readonly Canvas[]>();

function levels(variant: CardVariant): readonly Canvas[] {
  const known = levelsOf.get(variant) ?? cardLevels(variant);
  levelsOf.set(variant, known);
  return known;
}

/** The card itself seen straight from above, at 10 px/mm. */
export function flatCard(variant: CardVariant = 'colour'): Pixels {
  return toPixels(levels(variant)[1]!, 0, randomFrom(1));
}

export function photograph(shot: Shot): Photo {
  const random = randomFrom(shot.seed);
  const canvas = tableTop(shot, random);
  const toPhoto = aim(shot);
  layCard(canvas, shot, toPhoto, random);
  light(canvas, shot, random);
  if (shot.blurPx) blur(canvas, shot.blurPx);
  return { pixels: toPixels(canvas, shot.noise ?? 0, random), toPhoto };
}

/** A picture of a table without a card. */
export function emptyTable(shot: Shot): Pixels {
  const random = randomFrom(shot.seed);
  const canvas = tableTop(shot, random);
  light(canvas, shot, random);
  if (shot.blurPx) blur(canvas, shot.blurPx);
  return toPixels(canvas, shot.noise ?? 0, random);
}

/* ---- camera ---- */

function aim(shot: Shot): Photo['toPhoto'] {
  const radians = (degrees: number) => (degrees * Math.PI) / 180;
  const [turn, tilt, axis] = [radians(shot.turnDegrees), radians(shot.tiltDegrees), radians(shot.tiltAxisDegrees)];
  const focal = 0.75 * Math.max(shot.width, shot.height);
  const see = (xMm: number, yMm: number, distance: number): Point => {
    const x = xMm - CARD_WIDTH_MM / 2;
    const y = yMm - CARD_HEIGHT_MM / 2;
    const z = (shot.curlMm ?? 0) * (x / 74) ** 2;
    // Rodrigues' rotation about (cos axis, sin axis, 0), then a turn about the line of sight.
    const [kx, ky] = [Math.cos(axis), Math.sin(axis)];
    const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
    const dot = (kx * x + ky * y) * (1 - c);
    const px = x * c + ky * z * s + kx * dot;
    const py = y * c - kx * z * s + ky * dot;
    const pz = z * c + (kx * y - ky * x) * s;
    const [qx, qy] = [px * Math.cos(turn) - py * Math.sin(turn), px * Math.sin(turn) + py * Math.cos(turn)];
    const scale = focal / (distance - pz);
    return [qx * scale * (shot.mirrored ? -1 : 1), qy * scale];
  };
  const outline = (distance: number) => {
    const points = [0, CARD_WIDTH_MM].flatMap((x) => [0, CARD_HEIGHT_MM].map((y) => see(x, y, distance)));
    const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
    return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
  };
  let [near, far] = [110, 20000];
  for (let i = 0; i < 40; i++) {
    const middle = Math.sqrt(near * far);
    const box = outline(middle);
    const over = Math.max((box.right - box.left) / (shot.fill * shot.width), (box.bottom - box.top) / shot.height);
    if (over > 1) near = middle;
    else far = middle;
  }
  const box = outline(far);
  const cx = shot.width * (0.5 + (shot.shift?.[0] ?? 0)) - (box.left + box.right) / 2;
  const cy = shot.height * (0.5 + (shot.shift?.[1] ?? 0)) - (box.top + box.bottom) / 2;
  const halfDiagonal = Math.hypot(shot.width, shot.height) / 2;
  return (xMm, yMm) => {
    const [x, y] = see(xMm, yMm, far);
    const [u, v] = [x + cx - shot.width / 2, y + cy - shot.height / 2];
    const bend = 1 + (shot.lens ?? 0) * ((u * u + v * v) / halfDiagonal ** 2);
    return [shot.width / 2 + u * bend, shot.height / 2 + v * bend];
  };
}

const GRID_PX = 8;

/** Places on the card for a grid of places in the picture, by Newton's method. */
function cardGrid(shot: Shot, toPhoto: Photo['toPhoto']) {
  const columns = Math.ceil(shot.width / GRID_PX) + 1;
  const rows = Math.ceil(shot.height / GRID_PX) + 1;
  const grid = new Float64Array(columns * rows * 2);
  const step = 0.01;
  for (let row = 0; row < rows; row++) {
    let [x, y] = [CARD_WIDTH_MM / 2, CARD_HEIGHT_MM / 2];
    for (let column = 0; column < columns; column++) {
      for (let i = 0; i < 12; i++) {
        const [u, v] = toPhoto(x, y);
        const [ux, vx] = toPhoto(x + step, y);
        const [uy, vy] = toPhoto(x, y + step);
        const [a, b, c, d] = [(ux - u) / step, (uy - u) / step, (vx - v) / step, (vy - v) / step];
        const [du, dv] = [column * GRID_PX - u, row * GRID_PX - v];
        const det = a * d - b * c;
        const dx = (d * du - b * dv) / det;
        const dy = (a * dv - c * du) / det;
        const limit = Math.min(1, 40 / Math.hypot(dx, dy));
        x = Math.max(-80, Math.min(228, x + dx * limit));
        y = Math.max(-80, Math.min(185, y + dy * limit));
        if (Math.hypot(dx, dy) < 1e-6) break;
      }
      grid.set([x, y], (row * columns + column) * 2);
    }
  }
  return { grid, columns };
}

function layCard(canvas: Canvas, shot: Shot, toPhoto: Photo['toPhoto'], random: Random): void {
  const { grid, columns } = cardGrid(shot, toPhoto);
  const [ax, ay] = toPhoto(70, 50);
  const [bx, by] = toPhoto(78, 50);
  const pxPerMm = Math.hypot(bx - ax, by - ay) / 8;
  const all = levels(shot.variant ?? 'colour');
  const level = Math.max(0, Math.min(all.length - 1, Math.floor(Math.log2(20 / pxPerMm))));
  const card = all[level]!;
  const texels = 20 / 2 ** level;
  const shadowFrom = 30 + random() * 90;
  const slope = random() - 0.5;
  const taps = [0.25, 0.75];
  const seen: [number, number, number] = [0, 0, 0];
  for (let py = 0; py < canvas.height; py++) {
    for (let px = 0; px < canvas.width; px++) {
      if (px % GRID_PX === 0 && isBeside(grid, (Math.floor(py / GRID_PX) * columns + px / GRID_PX) * 2, columns * 2)) {
        px += GRID_PX - 1;
        continue;
      }
      let weight = 0;
      seen.fill(0);
      for (const oy of taps) {
        for (const ox of taps) {
          const xMm = gridAt(grid, columns, px + ox, py + oy, 0);
          const yMm = gridAt(grid, columns, px + ox, py + oy, 1);
          if (!(xMm >= 0 && yMm >= 0 && xMm < CARD_WIDTH_MM && yMm < CARD_HEIGHT_MM)) continue;
          weight += 0.25;
          if (shot.covers?.some(([x, y, w, h]) => xMm >= x && yMm >= y && xMm < x + w && yMm < y + h)) {
            seen[0] += 0.25 * 205;
            seen[1] += 0.25 * 150;
            seen[2] += 0.25 * 125;
            continue;
          }
          const shade = 1 - (shot.shadow ?? 0) * smooth((xMm + slope * yMm - shadowFrom) / 3);
          addTexel(seen, card, xMm * texels - 0.5, yMm * texels - 0.5, 0.25 * shade);
        }
      }
      if (weight === 0) continue;
      const o = (py * canvas.width + px) * 3;
      for (let c = 0; c < 3; c++) canvas.rgb[o + c] = canvas.rgb[o + c]! * (1 - weight) + seen[c]!;
    }
  }
}

/** Place on the card of a place in the picture: x (axis 0) or y (1), in proportion between the nodes. */
function gridAt(grid: Float64Array, columns: number, u: number, v: number, axis: number): number {
  const i = Math.floor(u / GRID_PX);
  const j = Math.floor(v / GRID_PX);
  const fx = u / GRID_PX - i;
  const fy = v / GRID_PX - j;
  const k = (j * columns + i) * 2 + axis;
  const down = k + columns * 2;
  return (grid[k]! * (1 - fx) + grid[k + 2]! * fx) * (1 - fy) + (grid[down]! * (1 - fx) + grid[down + 2]! * fx) * fy;
}

/** All four nodes of a cell of the grid lie beyond the same side of the card. */
function isBeside(grid: Float64Array, at: number, down: number): boolean {
  const nodes = [at, at + 2, at + down, at + down + 2];
  return (
    nodes.every((k) => grid[k]! < 0) ||
    nodes.every((k) => grid[k]! > CARD_WIDTH_MM) ||
    nodes.every((k) => grid[k + 1]! < 0) ||
    nodes.every((k) => grid[k + 1]! > CARD_HEIGHT_MM)
  );
}

function smooth(t: number): number {
  const s = Math.max(0, Math.min(1, 0.5 + t / 2));
  return s * s * (3 - 2 * s);
}

function addTexel(seen: [number, number, number], card: Canvas, x: number, y: number, weight: number): void {
  const cx = Math.max(0, Math.min(card.width - 1.001, x));
  const cy = Math.max(0, Math.min(card.height - 1.001, y));
  const [i, j] = [Math.floor(cx), Math.floor(cy)];
  const [fx, fy] = [cx - i, cy - j];
  const o = (j * card.width + i) * 3;
  const down = card.width * 3;
  for (let c = 0; c < 3; c++) {
    seen[c]! +=
      weight *
      ((card.rgb[o + c]! * (1 - fx) + card.rgb[o + 3 + c]! * fx) * (1 - fy) +
        (card.rgb[o + down + c]! * (1 - fx) + card.rgb[o + down + 3 + c]! * fx) * fy);
  }
}

/* ---- table, light, noise ---- */

function tableTop(shot: Shot, random: Random): Canvas {
  const colour = shot.table ?? [150, 120, 90];
  const canvas = blank(shot.width, shot.height, colour);
  for (let i = 0; i < (shot.clutter ?? 0); i++) addThing(canvas, random);
  return canvas;
}

/** A sheet, a phone, a checker, lines of print, or a framed block of cells that is no fiducial of the card. */
function addThing(canvas: Canvas, random: Random): void {
  const size = Math.max(canvas.width, canvas.height);
  const x = random() * canvas.width;
  const y = random() * canvas.height;
  const turn = random() * Math.PI;
  const w = size * (0.03 + 0.2 * random());
  const h = w * (0.4 + 0.8 * random());
  const dark: Colour = [20 + 40 * random(), 20 + 40 * random(), 20 + 40 * random()];
  const bright: Colour = [190 + 60 * random(), 190 + 60 * random(), 190 + 60 * random()];
  const any: Colour = [255 * random(), 255 * random(), 255 * random()];
  const block = (u: number, v: number, du: number, dv: number, colour: Colour, side = w) => {
    const place = (a: number, b: number): Point => [
      x + (a - 0.5) * side * Math.cos(turn) - (b - 0.5) * (side === w ? h : side) * Math.sin(turn),
      y + (a - 0.5) * side * Math.sin(turn) + (b - 0.5) * (side === w ? h : side) * Math.cos(turn),
    ];
    fillQuad(canvas, [place(u, v), place(u + du, v), place(u + du, v + dv), place(u, v + dv)], colour);
  };
  const kind = Math.floor(random() * 5);
  if (kind === 0) block(0, 0, 1, 1, any);
  else if (kind === 1) {
    block(0, 0, 1, 1, dark);
    block(0.06, 0.06, 0.88, 0.88, any);
  } else if (kind === 2) {
    const n = 2 + Math.floor(random() * 6);
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) block(i / n, j / n, 1 / n, 1 / n, (i + j) % 2 ? dark : bright);
  } else if (kind === 3) {
    block(0, 0, 1, 1, bright);
    for (let i = 0; i < 8; i++)
      for (let j = 0; j < 12; j++) if (random() < 0.8) block(0.05 + j * 0.075, 0.06 + i * 0.115, 0.05, 0.05, dark);
  } else {
    const side = w * 0.6;
    block(-0.2, -0.2, 1.4, 1.4, bright, side);
    block(0, 0, 1, 1, dark, side);
    for (let i = 0; i < 4; i++)
      for (let j = 0; j < 4; j++)
        if (random() < 0.5) block(1 / 7 + (i * 5) / 28, 1 / 7 + (j * 5) / 28, 5 / 28, 5 / 28, bright, side);
  }
}

function light(canvas: Canvas, shot: Shot, random: Random): void {
  const direction = random() * 2 * Math.PI;
  const [dx, dy] = [Math.cos(direction), Math.sin(direction)];
  const level = shot.light ?? 1;
  for (let y = 0; y < canvas.height; y++) {
    for (let x = 0; x < canvas.width; x++) {
      const t = 0.5 + 0.5 * (dx * ((2 * x) / canvas.width - 1) + dy * ((2 * y) / canvas.height - 1));
      const factor = level * (1 - (shot.shade ?? 0) * Math.max(0, Math.min(1, t)));
      const o = (y * canvas.width + x) * 3;
      for (let c = 0; c < 3; c++) canvas.rgb[o + c]! *= factor;
    }
  }
}

function blur(canvas: Canvas, sigma: number): void {
  const radius = Math.ceil(2.5 * sigma);
  const kernel = Array.from({ length: 2 * radius + 1 }, (_, i) => Math.exp(-((i - radius) ** 2) / (2 * sigma * sigma)));
  const sum = kernel.reduce((total, value) => total + value, 0);
  const { rgb, width, height } = canvas;
  const between = new Float32Array(rgb.length);
  const pass = (from: Float32Array, to: Float32Array, step: number, length: number, starts: (i: number) => number) => {
    const lines = rgb.length / 3 / length;
    for (let line = 0; line < lines; line++) {
      const start = starts(line);
      for (let i = 0; i < length; i++) {
        let r = 0;
        let g = 0;
        let b = 0;
        for (let k = -radius; k <= radius; k++) {
          const o = start + Math.max(0, Math.min(length - 1, i + k)) * step;
          const weight = kernel[k + radius]!;
          r += from[o]! * weight;
          g += from[o + 1]! * weight;
          b += from[o + 2]! * weight;
        }
        const o = start + i * step;
        to[o] = r / sum;
        to[o + 1] = g / sum;
        to[o + 2] = b / sum;
      }
    }
  };
  pass(rgb, between, 3, width, (row) => row * width * 3);
  pass(between, rgb, width * 3, height, (column) => column * 3);
}

function toPixels(canvas: Canvas, noise: number, random: Random): Pixels {
  const table = Float32Array.from({ length: noise > 0 ? 8192 : 1 }, () => {
    const [u, v] = [Math.max(1e-9, random()), random()];
    return noise * Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * v);
  });
  let state = Math.floor(random() * 2 ** 31) | 1;
  const data = new Uint8ClampedArray(canvas.width * canvas.height * 4);
  for (let i = 0, o = 0; o < data.length; i += 3, o += 4) {
    for (let c = 0; c < 3; c++) {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      data[o + c] = canvas.rgb[i + c]! + table[(state >>> 8) % table.length]!;
    }
    data[o + 3] = 255;
  }
  return { data, width: canvas.width, height: canvas.height };
}

/* ---- drawing ---- */

function blank(width: number, height: number, colour: Colour): Canvas {
  const rgb = new Float32Array(width * height * 3);
  for (let i = 0; i < rgb.length; i += 3) {
    rgb[i] = colour[0];
    rgb[i + 1] = colour[1];
    rgb[i + 2] = colour[2];
  }
  return { rgb, width, height };
}

function grey(ink: number): Colour {
  const level = PAPER + (SOLID - PAPER) * ink ** 0.8;
  return [level, level, level];
}

function fillBox(canvas: Canvas, x0: number, y0: number, x1: number, y1: number, colour: Colour): void {
  for (let y = Math.max(0, Math.round(y0)); y < Math.min(canvas.height, Math.round(y1)); y++) {
    for (let x = Math.max(0, Math.round(x0)); x < Math.min(canvas.width, Math.round(x1)); x++) {
      setPixel(canvas, x, y, colour);
    }
  }
}

function fillDisc(canvas: Canvas, cx: number, cy: number, radius: number): void {
  for (let y = Math.floor(cy - radius); y < cy + radius; y++) {
    for (let x = Math.floor(cx - radius); x < cx + radius; x++) {
      if (Math.hypot(x + 0.5 - cx, y + 0.5 - cy) < radius) canvas.rgb.set(grey(1), (y * canvas.width + x) * 3);
    }
  }
}

function fillQuad(canvas: Canvas, corners: readonly Point[], colour: Colour): void {
  const ys = corners.map(([, y]) => y);
  const bottom = Math.min(canvas.height, Math.max(...ys));
  for (let y = Math.max(0, Math.floor(Math.min(...ys))); y < bottom; y++) {
    let [from, to] = [0, canvas.width];
    corners.forEach(([ax, ay], i) => {
      const [bx, by] = corners[(i + 1) % corners.length]!;
      // Inside where slope * x <= rest.
      const slope = by - ay;
      const rest = (bx - ax) * (y + 0.5 - ay) + slope * ax;
      if (slope > 0) to = Math.min(to, rest / slope);
      else if (slope < 0) from = Math.max(from, rest / slope);
      else if (rest < 0) to = -1;
    });
    for (let x = Math.ceil(from - 0.5); x + 0.5 <= to; x++) setPixel(canvas, x, y, colour);
  }
}

function setPixel({ rgb, width }: Canvas, x: number, y: number, colour: Colour): void {
  const at = (y * width + x) * 3;
  rgb[at] = colour[0];
  rgb[at + 1] = colour[1];
  rgb[at + 2] = colour[2];
}

function halve(canvas: Canvas): Canvas {
  const half = blank(canvas.width >> 1, canvas.height >> 1, [0, 0, 0]);
  for (let y = 0; y < half.height; y++) {
    for (let x = 0; x < half.width; x++) {
      for (let c = 0; c < 3; c++) {
        const o = (2 * y * canvas.width + 2 * x) * 3 + c;
        const below = o + canvas.width * 3;
        half.rgb[(y * half.width + x) * 3 + c] =
          (canvas.rgb[o]! + canvas.rgb[o + 3]! + canvas.rgb[below]! + canvas.rgb[below + 3]!) / 4;
      }
    }
  }
  return half;
}

/** Two pictures of the same height side by side. */
export function beside(left: Pixels, right: Pixels): Pixels {
  const width = left.width + right.width;
  const data = new Uint8ClampedArray(width * left.height * 4);
  for (let y = 0; y < left.height; y++) {
    data.set(left.data.subarray(y * left.width * 4, (y + 1) * left.width * 4), y * width * 4);
    data.set(right.data.subarray(y * right.width * 4, (y + 1) * right.width * 4), (y * width + left.width) * 4);
  }
  return { data, width, height: left.height };
}

/** A scene by chance: any turn, tilt to 45 degrees, a fifth to the whole of the width, tables from black to white. */
export function randomShot(seed: number): Shot {
  const random = randomFrom(seed);
  const pick = <T>(values: readonly T[]) => values[Math.floor(random() * values.length)]!;
  const portrait = random() < 0.4;
  return {
    seed,
    width: portrait ? 768 : 1024,
    height: portrait ? 1024 : 768,
    fill: 0.25 + 0.75 * random(),
    turnDegrees: 360 * random(),
    tiltDegrees: 45 * random(),
    tiltAxisDegrees: 360 * random(),
    mirrored: random() < 0.15,
    blurPx: 0.3 + random(),
    noise: 8 * random(),
    shade: 0.5 * random(),
    shadow: random() < 0.35 ? 0.5 * random() : 0,
    light: 0.4 + 0.6 * random(),
    table: pick([
      [150, 120, 90],
      [30, 28, 26],
      [235, 235, 230],
      [90, 95, 100],
      [12, 12, 12],
    ]),
    clutter: Math.floor(25 * random()),
    lens: random() < 0.5 ? 0.05 * (random() - 0.5) : 0,
    curlMm: random() < 0.25 ? 10 * (random() - 0.5) : 0,
  };
}
