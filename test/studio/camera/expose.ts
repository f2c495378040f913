/** Light of the scene to sensor counts: what each pixel of the picture sees, before any processing. */
import type { Lie } from '../charts/lie.ts';
import type { Projection } from '../scene/view.ts';
import type { Screen } from '../scene/screen.ts';
import type { Sheet } from '../scene/sheet.ts';
import type { Texture } from '../scene/texture.ts';
import type { Illumination, Scene } from '../scene/types.ts';

/** Three planes, balanced sensor values; 1 is where the sensor is full. */
export interface Frame {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly planes: readonly [Float32Array, Float32Array, Float32Array];
}

/** How much of each light reaches a place on the card's plane. */
export type LightAt = (xMm: number, yMm: number, into: Float64Array) => void;

export function lightField(light: Illumination): LightAt {
  const [sx, sy, sxx, sxy, syy] = light.shading;
  const shadows = light.shadows.map((shadow) => {
    const angle = (shadow.acrossDegrees * Math.PI) / 180;
    return { ...shadow, cos: Math.cos(angle), sin: Math.sin(angle) };
  });
  const second = light.second;
  const towards = ((second?.towardsDegrees ?? 0) * Math.PI) / 180;
  const [cos, sin] = [Math.cos(towards), Math.sin(towards)];
  return (xMm, yMm, into) => {
    const x = Math.min(3, Math.max(-3, (xMm - 74) / 74));
    const y = Math.min(3, Math.max(-3, (yMm - 52.5) / 74));
    const shading = Math.max(0.15, 1 + sx * x + sy * y + sxx * x * x + sxy * x * y + syy * y * y);
    let main = shading;
    for (const { cos: c, sin: s, atMm, softMm, depth } of shadows) {
      const t = Math.min(1, Math.max(0, (c * (xMm - 74) + s * (yMm - 52.5) - atMm) / softMm + 0.5));
      main *= 1 - depth * t * t * (3 - 2 * t);
    }
    if (!second) {
      into[0] = main;
      return;
    }
    const share = Math.min(1, Math.max(0, second.share + second.rise * 0.5 * (cos * x + sin * y)));
    into[0] = main * (1 - share);
    into[1] = shading * share;
  };
}

export interface Layers {
  readonly card: Texture | null;
  /** How the card's paper lies; null where it is flat. */
  readonly sheet: Sheet | null;
  /** Lies where the card would. */
  readonly screen: Screen | null;
  readonly table: Texture;
  readonly chart: { readonly texture: Texture; readonly lie: Lie } | null;
}

/** @param gain brings the scene's paper to the wanted exposure */
export function expose(scene: Scene, layers: Layers, projection: Projection, gain: number): Frame {
  const { widthPx, heightPx } = scene;
  const planes: Frame['planes'] = [
    new Float32Array(widthPx * heightPx),
    new Float32Array(widthPx * heightPx),
    new Float32Array(widthPx * heightPx),
  ];
  const lights = layers.table.channels / 3;
  const lightAt = lightField(scene.light);
  const place = new Float64Array(2);
  const light = new Float64Array(2);
  const seen = new Float64Array(layers.table.channels);
  const onChart = new Float64Array(3);
  const onCard = new Float64Array(3);
  const glow = new Float64Array(3);
  const cardSeen = new Float64Array(layers.table.channels);
  const halfSquared = (widthPx * widthPx + heightPx * heightPx) / 4;
  for (let v = 0; v < heightPx; v++) {
    for (let u = 0; u < widthPx; u++) {
      const at = v * widthPx + u;
      if (!projection.toPlane(u + 0.5, v + 0.5, place)) continue;
      const xMm = place[0]!;
      const yMm = place[1]!;
      onCard[0] = xMm;
      onCard[1] = yMm;
      onCard[2] = 1;
      const meets = layers.card !== null && (layers.sheet?.at(xMm, yMm, onCard) ?? true);
      const share = meets ? insideShare(layers.card!, onCard[0]!, onCard[1]!, projection.pxPerMm) : 0;
      if (share < 1) sample(layers.table, xMm, yMm, seen);
      if (share > 0) {
        sample(layers.card!, onCard[0]!, onCard[1]!, cardSeen);
        for (let c = 0; c < seen.length; c++) {
          seen[c] = share === 1 ? cardSeen[c]! : seen[c]! + share * (cardSeen[c]! - seen[c]!);
        }
      }
      lightAt(xMm, yMm, light);
      if (share > 0) {
        light[0]! *= 1 + share * (onCard[2]! - 1);
        light[1]! *= 1 + share * (onCard[2]! - 1);
      }
      if (layers.chart?.lie.at(xMm, yMm, onChart)) {
        sample(layers.chart.texture, onChart[0]!, onChart[1]!, seen);
        light[0]! *= onChart[2]!;
        light[1]! *= onChart[2]!;
      }
      const r2 = ((u + 0.5 - widthPx / 2) ** 2 + (v + 0.5 - heightPx / 2) ** 2) / halfSquared;
      const scale = gain * (1 - scene.camera.vignetting * r2);
      const one = scale * light[0]!;
      if (layers.screen?.at(xMm, yMm, light[0]!, glow)) {
        for (let c = 0; c < 3; c++) planes[c]![at] = gain * (1 - scene.camera.vignetting * r2) * glow[c]!;
      } else if (lights === 1) {
        planes[0][at] = one * seen[0]!;
        planes[1][at] = one * seen[1]!;
        planes[2][at] = one * seen[2]!;
      } else {
        const two = scale * light[1]!;
        planes[0][at] = one * seen[0]! + two * seen[3]!;
        planes[1][at] = one * seen[1]! + two * seen[4]!;
        planes[2][at] = one * seen[2]! + two * seen[5]!;
      }
    }
  }
  return { widthPx, heightPx, planes };
}

/** Share of a pixel that lies on the card's piece of paper. */
function insideShare(card: Texture, xMm: number, yMm: number, pxPerMm: number): number {
  const dx = Math.min(xMm - card.x0Mm, card.x0Mm + card.widthPx / card.pxPerMm - xMm);
  const dy = Math.min(yMm - card.y0Mm, card.y0Mm + card.heightPx / card.pxPerMm - yMm);
  return Math.min(1, Math.max(0, 0.5 + Math.min(dx, dy) * pxPerMm));
}

/** Bilinear; beyond its border a texture goes on as its mirror image. */
function sample(texture: Texture, xMm: number, yMm: number, into: Float64Array): void {
  const { widthPx, heightPx, channels, data } = texture;
  const x = (xMm - texture.x0Mm) * texture.pxPerMm - 0.5;
  const y = (yMm - texture.y0Mm) * texture.pxPerMm - 0.5;
  const x0 = Math.floor(x);
  const y0 = Math.floor(y);
  const fx = x - x0;
  const fy = y - y0;
  const left = mirrored(x0, widthPx);
  const right = mirrored(x0 + 1, widthPx);
  const top = mirrored(y0, heightPx) * widthPx;
  const bottom = mirrored(y0 + 1, heightPx) * widthPx;
  const a = (top + left) * channels;
  const b = (top + right) * channels;
  const c = (bottom + left) * channels;
  const d = (bottom + right) * channels;
  for (let k = 0; k < channels; k++) {
    const upper = data[a + k]! + fx * (data[b + k]! - data[a + k]!);
    const lower = data[c + k]! + fx * (data[d + k]! - data[c + k]!);
    into[k] = upper + fy * (lower - upper);
  }
}

function mirrored(i: number, size: number): number {
  if (i >= 0 && i < size) return i;
  const period = 2 * size;
  const inside = ((i % period) + period) % period;
  return inside < size ? inside : period - 1 - inside;
}
