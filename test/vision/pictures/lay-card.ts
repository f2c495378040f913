/** The card laid into a picture as a pinhole camera sees it: tilted, bent by a lens, curled, folded, covered. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../../src/core/card/geometry.ts';
import type { Point } from '../../../src/core/card/homography.ts';
import type { Canvas, Random } from './canvas.ts';
import { levels } from './printed-card.ts';
import type { Photo, Shot } from './shot.ts';

export function aim(shot: Shot): Photo['toPhoto'] {
  const radians = (degrees: number) => (degrees * Math.PI) / 180;
  const [turn, tilt, axis] = [radians(shot.turnDegrees), radians(shot.tiltDegrees), radians(shot.tiltAxisDegrees)];
  const fold = radians((shot.foldDegrees ?? 0) / 2);
  const focal = 0.75 * Math.max(shot.width, shot.height);
  const see = (xMm: number, yMm: number, distance: number): Point => {
    const along = xMm - CARD_WIDTH_MM / 2;
    const x = along * Math.cos(fold);
    const y = yMm - CARD_HEIGHT_MM / 2;
    const z = (shot.curlMm ?? 0) * (x / 74) ** 2 + Math.abs(along) * Math.sin(fold);
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

/** @param all what is printed on it, in several finenesses */
export function layCard(
  canvas: Canvas,
  shot: Shot,
  toPhoto: Photo['toPhoto'],
  random: Random,
  all: readonly Canvas[] = levels(shot.variant ?? 'colour', shot.mark ?? null),
): void {
  const { grid, columns } = cardGrid(shot, toPhoto);
  const [ax, ay] = toPhoto(70, 50);
  const [bx, by] = toPhoto(78, 50);
  const pxPerMm = Math.hypot(bx - ax, by - ay) / 8;
  const level = Math.max(0, Math.min(all.length - 1, Math.floor(Math.log2(20 / pxPerMm))));
  const card = all[level]!;
  const texels = 20 / 2 ** level;
  const shadowFrom = 30 + random() * 90;
  const slope = random() - 0.5;
  const taps = [0.25, 0.75];
  const seen: [number, number, number] = [0, 0, 0];
  const place = new Float64Array(2);
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
          placeAt(grid, columns, px + ox, py + oy, place);
          const xMm = place[0]!;
          const yMm = place[1]!;
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

/** Writes the place on the card of a place in the picture, in proportion between the nodes. */
function placeAt(grid: Float64Array, columns: number, u: number, v: number, into: Float64Array): void {
  const i = Math.floor(u / GRID_PX);
  const j = Math.floor(v / GRID_PX);
  const fx = u / GRID_PX - i;
  const fy = v / GRID_PX - j;
  const k = (j * columns + i) * 2;
  const down = k + columns * 2;
  for (let axis = 0; axis < 2; axis++) {
    into[axis] =
      (grid[k + axis]! * (1 - fx) + grid[k + 2 + axis]! * fx) * (1 - fy) +
      (grid[down + axis]! * (1 - fx) + grid[down + 2 + axis]! * fx) * fy;
  }
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
  const i = Math.floor(cx);
  const j = Math.floor(cy);
  const fx = cx - i;
  const fy = cy - j;
  const o = (j * card.width + i) * 3;
  const down = card.width * 3;
  for (let c = 0; c < 3; c++) {
    seen[c]! +=
      weight *
      ((card.rgb[o + c]! * (1 - fx) + card.rgb[o + 3 + c]! * fx) * (1 - fy) +
        (card.rgb[o + down + c]! * (1 - fx) + card.rgb[o + down + 3 + c]! * fx) * fy);
  }
}
