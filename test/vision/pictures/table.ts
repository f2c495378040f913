/** What the card lies on, and the light over it. */
import type { Point } from '../../../src/core/card/homography.ts';
import { blank, type Canvas, type Colour, fillQuad, type Random } from './canvas.ts';
import type { Shot } from './shot.ts';

export function tableTop(shot: Shot, random: Random): Canvas {
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

export function light(canvas: Canvas, shot: Shot, random: Random): void {
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
