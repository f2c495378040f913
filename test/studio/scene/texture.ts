/** A picture of the card's plane in millimetres, holding a material colour for each light. */
import type { Lifted } from './bow.ts';
import { type Ground, isSeen, type Seen } from './seen.ts';

/**
 * Colour of a material as the balanced sensor sees it, three numbers per light (three or six in all).
 * Whole scenes use one length.
 */
export type Colour = readonly number[];

export interface Texture {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Place of the outer corner of the first texel. */
  readonly x0Mm: number;
  readonly y0Mm: number;
  readonly pxPerMm: number;
  readonly channels: number;
  /** `channels` numbers a texel, row by row. */
  readonly data: Float32Array;
  /** What of it is worth painting; null: all. */
  readonly seen: Seen | null;
}

export function newTexture(
  area: { x0Mm: number; y0Mm: number; widthMm: number; heightMm: number },
  pxPerMm: number,
  fill: Colour,
  seenOf: (ground: Ground) => Seen | null = () => null,
): Texture {
  const widthPx = Math.max(2, Math.ceil(area.widthMm * pxPerMm));
  const heightPx = Math.max(2, Math.ceil(area.heightMm * pxPerMm));
  const channels = fill.length;
  const data = new Float32Array(widthPx * heightPx * channels);
  for (let i = 0; i < data.length; i += channels) for (let c = 0; c < channels; c++) data[i + c] = fill[c]!;
  const ground = { widthPx, heightPx, x0Mm: area.x0Mm, y0Mm: area.y0Mm, pxPerMm };
  return { ...ground, channels, data, seen: seenOf(ground) };
}

/** Lays a colour over one texel. */
export function cover(texture: Texture, index: number, colour: Colour, share: number): void {
  const { data, channels } = texture;
  const at = index * channels;
  for (let c = 0; c < channels; c++) data[at + c]! += share * (colour[c]! - data[at + c]!);
}

export function multiply(texture: Texture, index: number, factor: number): void {
  const at = index * texture.channels;
  for (let c = 0; c < texture.channels; c++) texture.data[at + c]! *= factor;
}

export function add(texture: Texture, index: number, colour: Colour, amount: number): void {
  const at = index * texture.channels;
  for (let c = 0; c < texture.channels; c++) texture.data[at + c]! += amount * colour[c]!;
}

/** Lays a colour over upright boxes that don't overlap, each texel by the share of it that they cover together. */
export function coverBoxes(
  texture: Texture,
  boxes: readonly { readonly xMm: number; readonly yMm: number; readonly widthMm: number; readonly heightMm: number }[],
  colour: Colour,
): void {
  const { pxPerMm, widthPx, heightPx, x0Mm, y0Mm } = texture;
  const edges = boxes.map((box) => ({
    left: (box.xMm - x0Mm) * pxPerMm,
    top: (box.yMm - y0Mm) * pxPerMm,
    right: (box.xMm + box.widthMm - x0Mm) * pxPerMm,
    bottom: (box.yMm + box.heightMm - y0Mm) * pxPerMm,
  }));
  const fromX = Math.max(0, Math.floor(Math.min(...edges.map((edge) => edge.left))));
  const toX = Math.min(widthPx, Math.ceil(Math.max(...edges.map((edge) => edge.right))));
  const fromY = Math.max(0, Math.floor(Math.min(...edges.map((edge) => edge.top))));
  const toY = Math.min(heightPx, Math.ceil(Math.max(...edges.map((edge) => edge.bottom))));
  const shares = new Float32Array(Math.max(0, (toX - fromX) * (toY - fromY)));
  for (const { left, top, right, bottom } of edges) {
    for (let y = Math.max(fromY, Math.floor(top)); y < Math.min(toY, bottom); y++) {
      const high = Math.min(y + 1, bottom) - Math.max(y, top);
      for (let x = Math.max(fromX, Math.floor(left)); x < Math.min(toX, right); x++) {
        shares[(y - fromY) * (toX - fromX) + x - fromX]! += high * (Math.min(x + 1, right) - Math.max(x, left));
      }
    }
  }
  shares.forEach((share, i) => {
    if (share === 0) return;
    const y = fromY + Math.floor(i / (toX - fromX));
    cover(texture, y * widthPx + fromX + (i % (toX - fromX)), colour, share);
  });
}

/** A turned rectangle with rounded corners; `u` runs along its width, `v` along its height, from its centre. */
export interface Turned {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly turnDegrees: number;
  readonly radiusMm: number;
}

/** How far a place lies inside a rounded rectangle (negative: outside), mm. */
export function depthInside(u: number, v: number, widthMm: number, heightMm: number, radiusMm: number): number {
  const du = Math.abs(u) - (widthMm / 2 - radiusMm);
  const dv = Math.abs(v) - (heightMm / 2 - radiusMm);
  if (du <= 0 || dv <= 0) return radiusMm - Math.max(du, dv);
  return radiusMm - Math.hypot(du, dv);
}

/**
 * Visits every texel that may be seen within `reachMm` of a turned rectangle.
 * @param visit gets the texel's index, its place (u, v), and how far inside the rectangle it lies, mm
 * @param lifted where what stands off the texture is seen
 */
export function eachTexel(
  texture: Texture,
  shape: Turned,
  reachMm: number,
  visit: (index: number, u: number, v: number, depthMm: number) => void,
  lifted: Lifted | null = null,
): void {
  const turn = (shape.turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [halfU, halfV] = [shape.widthMm / 2 + reachMm, shape.heightMm / 2 + reachMm];
  const [halfX, halfY] = [Math.abs(cos) * halfU + Math.abs(sin) * halfV, Math.abs(sin) * halfU + Math.abs(cos) * halfV];
  const { pxPerMm, widthPx, heightPx } = texture;
  const more = lifted?.reachMm ?? 0;
  const from = (value: number, origin: number) => Math.max(0, Math.floor((value - more - origin) * pxPerMm));
  const lastX = Math.min(widthPx - 1, Math.ceil((shape.xMm + halfX + more - texture.x0Mm) * pxPerMm));
  const lastY = Math.min(heightPx - 1, Math.ceil((shape.yMm + halfY + more - texture.y0Mm) * pxPerMm));
  for (let y = from(shape.yMm - halfY, texture.y0Mm); y <= lastY; y++) {
    for (let x = from(shape.xMm - halfX, texture.x0Mm); x <= lastX; x++) {
      if (texture.seen && !isSeen(texture.seen, x, y)) continue;
      let dx = texture.x0Mm + (x + 0.5) / pxPerMm - shape.xMm;
      let dy = texture.y0Mm + (y + 0.5) / pxPerMm - shape.yMm;
      if (lifted) {
        const [seenX, seenY] = lifted.below(dx + shape.xMm, dy + shape.yMm);
        dx = seenX - shape.xMm;
        dy = seenY - shape.yMm;
      }
      const u = cos * dx + sin * dy;
      const v = cos * dy - sin * dx;
      if (Math.abs(u) > halfU || Math.abs(v) > halfV) continue;
      visit(y * widthPx + x, u, v, depthInside(u, v, shape.widthMm, shape.heightMm, shape.radiusMm));
    }
  }
}

/** Share of a texel that lies inside an edge, from its depth. */
export function edgeShare(texture: Texture, depthMm: number): number {
  return Math.min(1, Math.max(0, 0.5 + depthMm * texture.pxPerMm));
}

/** 0 before `from`, 1 after `to`, smooth in between. */
export function smoothstep(x: number, from: number, to: number): number {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

/** Paper grain everywhere, and the fine and coarse unevenness of the print. */
export function roughen(texture: Texture, mottle: number, noise: (x: number, y: number) => number): void {
  const { widthPx, heightPx, pxPerMm } = texture;
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const xMm = x / pxPerMm;
      const yMm = y / pxPerMm;
      const fine = noise(xMm * 7, yMm * 7);
      const coarse = noise(xMm * 0.35 + 50, yMm * 0.35);
      multiply(texture, y * widthPx + x, 1 + mottle * (fine + 0.5 * coarse));
    }
  }
}
