/**
 * A drawn photo of a card with a strip, to be read before the visitor's own has come: code runs several times as fast once
 * it has run. What is read from it is thrown away.
 */
import {
  ANCHORS,
  CARD_HEIGHT_MM,
  CARD_VERSION,
  CARD_WIDTH_MM,
  FIDUCIAL_CELL_MM,
  FIDUCIAL_FRAME_MM,
  FIDUCIALS,
  MARKS,
  NEUTRALS,
  type Rect,
  SLOT,
  VERSION_CELLS,
  versionBits,
} from '../core/card/geometry.ts';
import { MIN_MARK, PRINT_MARK_CELLS, printMarkBits } from '../core/card/print-mark.ts';
import { encodeSrgb, labToSrgb } from '../core/colour/lab.ts';
import type { StripScale } from '../core/scale/schema.ts';
import { inside } from './flatten/cell.ts';
import type { Planes } from './pixels.ts';

/** As fine as the card must be for the code to run that flattens a photo of 12 megapixels. */
const PX_PER_MM = 16;
/** Table around the card. */
const AROUND_MM = 6;
const [TABLE, PAPER, INK] = [0.3, 0.8, 0.04];
/** Levels of noise up and down, and how far apart, px: nothing fits perfectly. */
const [NOISE, NOISY] = [2, 3];

type Srgb = readonly [number, number, number];
type Box = Omit<Rect, 'id'>;

export function warmUpPhoto(scale: StripScale): Planes {
  const width = (CARD_WIDTH_MM + 2 * AROUND_MM) * PX_PER_MM;
  const height = (CARD_HEIGHT_MM + 2 * AROUND_MM) * PX_PER_MM;
  const half = (width * height) >> 2;
  const photo: Planes = {
    luma: new Uint8Array(width * height),
    cb: new Uint8Array(half),
    cr: new Uint8Array(half),
    across: 1,
    down: 1,
    width,
    height,
  };
  const whole = { xMm: -AROUND_MM, yMm: -AROUND_MM, widthMm: width / PX_PER_MM, heightMm: height / PX_PER_MM };
  paint(photo, whole, grey(TABLE));
  paint(photo, { xMm: 0, yMm: 0, widthMm: CARD_WIDTH_MM, heightMm: CARD_HEIGHT_MM }, grey(PAPER));
  paintPrint(photo);
  paintStrip(photo, scale);
  let state = 1;
  for (let i = 0; i < photo.luma.length; i += NOISY) {
    // xorshift32 (Marsaglia 2003).
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    photo.luma[i]! += ((state >>> 8) % (2 * NOISE + 1)) - NOISE;
  }
  return photo;
}

function paintPrint(photo: Planes): void {
  for (const patch of [...NEUTRALS, SLOT]) paint(photo, patch, grey(PAPER + patch.ink * (INK - PAPER)));
  for (const patch of ANCHORS) paint(photo, patch, patch.srgb);
  const bits = versionBits(CARD_VERSION, 'colour');
  VERSION_CELLS.forEach((cell, i) => bits[i] && paint(photo, cell, grey(INK)));
  const mark = printMarkBits(MIN_MARK);
  PRINT_MARK_CELLS.forEach((cell, i) => mark[i] && paint(photo, cell, grey(INK)));
  for (const { xMm, yMm, diameterMm } of MARKS) {
    const [x, y, size] = [xMm - diameterMm / 2, yMm - diameterMm / 2, diameterMm];
    paint(photo, { xMm: x, yMm: y, widthMm: size, heightMm: size }, grey(INK));
  }
  for (const { xMm, yMm, widthMm, heightMm, cells } of FIDUCIALS) {
    paint(photo, { xMm, yMm, widthMm, heightMm }, grey(INK));
    cells.forEach((row, down) =>
      [...row].forEach((cell, across) => {
        const x = xMm + FIDUCIAL_FRAME_MM + across * FIDUCIAL_CELL_MM;
        const y = yMm + FIDUCIAL_FRAME_MM + down * FIDUCIAL_CELL_MM;
        const size = FIDUCIAL_CELL_MM;
        if (cell === '.') paint(photo, { xMm: x, yMm: y, widthMm: size, heightMm: size }, grey(PAPER));
      }),
    );
  }
}

/** In the middle of the slot, each pad between its first two blocks. */
function paintStrip(photo: Planes, { strip, pads }: StripScale): void {
  const left = SLOT.xMm + (SLOT.widthMm - strip.lengthMm) / 2;
  const middle = SLOT.yMm + SLOT.heightMm / 2;
  const box = (from: number, length: number, height: number): Box => ({
    xMm: left + from,
    yMm: middle - height / 2,
    widthMm: length,
    heightMm: height,
  });
  paint(photo, box(0, strip.lengthMm, strip.widthMm), grey(PAPER));
  for (const { centreMm, widthMm, heightMm, blocks } of pads) {
    const [first, second] = [blocks[0]!.lab, blocks[1]!.lab];
    const lab = first.map((part, i) => (part + second[i]!) / 2) as unknown as Srgb;
    paint(photo, box(centreMm - widthMm / 2, widthMm, heightMm), labToSrgb(lab));
  }
}

function grey(reflectance: number): Srgb {
  const level = encodeSrgb(reflectance);
  return [level, level, level];
}

/** ITU-T T.871. */
function paint({ luma, cb, cr, width, height }: Planes, box: Box, [r, g, b]: Srgb): void {
  const y = 255 * (0.299 * r + 0.587 * g + 0.114 * b);
  const u = 128 + (255 * b - y) / 1.772;
  const v = 128 + (255 * r - y) / 1.402;
  fill(luma, width, height, PX_PER_MM, box, Math.round(y));
  fill(cb, width >> 1, height >> 1, PX_PER_MM / 2, box, Math.round(u));
  fill(cr, width >> 1, height >> 1, PX_PER_MM / 2, box, Math.round(v));
}

function fill(plane: Uint8Array, width: number, height: number, pxPerMm: number, box: Box, level: number): void {
  const px = (mm: number) => Math.round((mm + AROUND_MM) * pxPerMm);
  const [left, right] = [inside(px(box.xMm), width), Math.min(width, px(box.xMm + box.widthMm))];
  for (let row = inside(px(box.yMm), height); row < Math.min(height, px(box.yMm + box.heightMm)); row++) {
    plane.fill(level, row * width + left, row * width + right);
  }
}
