/** Sensor counts to the picture a phone saves: flare, blur, noise, colour matrix, tone, sharpening. */
import { hashText, randomFrom } from '../random.ts';
import type { Palette } from '../scene/palette.ts';
import type { Scene } from '../scene/types.ts';
import { blurPlane, smearPlane } from './blur.ts';
import type { Frame } from './expose.ts';
import { filterPlanes } from './filter.ts';
import { toneCurve } from './tone.ts';
import { both, phoneTurning, photoTurning, scaled, turnPlanes } from './turning.ts';

export interface Picture {
  /** RGBA, 8 bit, row by row. */
  readonly data: Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
}

export function develop(frame: Frame, scene: Scene, palette: Palette): Picture {
  const { widthPx, heightPx } = frame;
  const optics = frame.planes.map((plane) => {
    addFlare(plane, scene.camera.flare);
    const smeared = smearPlane(plane, widthPx, heightPx, scene.camera.motion);
    blurPlane(smeared, widthPx, heightPx, scene.camera.blurPx);
    return smeared;
  });
  optics.forEach((plane, c) => addNoise(plane, scene, palette.gains[c as 0 | 1 | 2], c));
  applyColour(optics, palette);
  turnHues(optics, scene);
  evenOut(optics, widthPx, heightPx, scene.camera.localTone);
  const planes = optics.map((plane) => encode(plane, scene));
  sharpen(planes, widthPx, heightPx, scene.camera.sharpening);
  if (scene.camera.filter) filterPlanes(planes, scene.camera.filter);
  return { data: interleave(planes), width: widthPx, height: heightPx };
}

function addFlare(plane: Float32Array, flare: number): void {
  let sum = 0;
  let count = 0;
  for (let i = 0; i < plane.length; i += 37) {
    sum += Math.min(1.5, plane[i]!);
    count++;
  }
  const veil = (flare * sum) / count;
  for (let i = 0; i < plane.length; i++) plane[i] = plane[i]! * (1 - flare) + veil;
}

const NORMALS = (() => {
  const random = randomFrom(977);
  return Float32Array.from({ length: 1 << 16 }, () => random.normal());
})();

/** Photon noise grows with the root of the signal; channels that the balance lifts are noisier. Then the sensor fills up. */
function addNoise(plane: Float32Array, { camera, seed }: Scene, gain: number, channel: number): void {
  const shot = camera.shotNoise * camera.shotNoise * gain;
  const read = (camera.readNoise * gain) ** 2;
  let state = (seed * 2654435761 + channel * 40503 + 12345) >>> 0;
  for (let i = 0; i < plane.length; i++) {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    const value = plane[i]!;
    plane[i] = Math.min(1, value + NORMALS[(state >>> 8) & 0xffff]! * Math.sqrt(shot * Math.max(0, value) + read));
  }
}

function applyColour([red, green, blue]: readonly Float32Array[], { matrix: [m0, m1, m2] }: Palette): void {
  for (let i = 0; i < red!.length; i++) {
    const r = red![i]!;
    const g = green![i]!;
    const b = blue![i]!;
    red![i] = m0[0] * r + m0[1] * g + m0[2] * b;
    green![i] = m1[0] * r + m1[1] * g + m1[2] * b;
    blue![i] = m2[0] * r + m2[1] * g + m2[2] * b;
  }
}

/** A phone has its own way with hues, and every photo a little more of its own. */
function turnHues(planes: readonly Float32Array[], { camera, seed }: Scene): void {
  if (!camera.turning) return;
  const phone = phoneTurning(randomFrom(hashText(camera.family, camera.unit)).fork('turning'));
  const photo = photoTurning(randomFrom(seed).fork('turning'));
  turnPlanes(planes as [Float32Array, Float32Array, Float32Array], scaled(both(phone, photo), camera.turning));
}

/** Phones lighten large dark regions and darken light ones: a gain from the coarse brightness of the neighbourhood. */
function evenOut(planes: readonly Float32Array[], widthPx: number, heightPx: number, strength: number): void {
  if (strength === 0) return;
  const [columns, rows] = [24, 18];
  const sums = new Float64Array(columns * rows);
  const counts = new Float64Array(columns * rows);
  for (let y = 0; y < heightPx; y += 4) {
    for (let x = 0; x < widthPx; x += 4) {
      const cell = Math.floor((y * rows) / heightPx) * columns + Math.floor((x * columns) / widthPx);
      sums[cell]! += Math.max(0.001, planes[1]![y * widthPx + x]!);
      counts[cell]!++;
    }
  }
  const logs = Float32Array.from(sums, (sum, i) => Math.log(sum / Math.max(1, counts[i]!)));
  blurPlane(logs, columns, rows, 2.2);
  const mean = logs.reduce((sum, value) => sum + value, 0) / logs.length;
  const gains = logs.map((value) => Math.exp(-strength * (value - mean)));
  for (let y = 0; y < heightPx; y++) {
    const gy = Math.min(rows - 1.001, Math.max(0, ((y + 0.5) * rows) / heightPx - 0.5));
    const [top, fy] = [Math.floor(gy) * columns, gy - Math.floor(gy)];
    for (let x = 0; x < widthPx; x++) {
      const gx = Math.min(columns - 1.001, Math.max(0, ((x + 0.5) * columns) / widthPx - 0.5));
      const left = Math.floor(gx);
      const fx = gx - left;
      const upper = gains[top + left]! * (1 - fx) + gains[top + left + 1]! * fx;
      const lower = gains[top + columns + left]! * (1 - fx) + gains[top + columns + left + 1]! * fx;
      const gain = upper + fy * (lower - upper);
      const at = y * widthPx + x;
      planes[0]![at]! *= gain;
      planes[1]![at]! *= gain;
      planes[2]![at]! *= gain;
    }
  }
}

const STEPS = 4096;

/** Tone curve by a table over the root of the light, which is fine where the curve is steep. */
function encode(plane: Float32Array, { camera }: Scene): Float32Array {
  const curve = toneCurve(camera.tone);
  const table = Float32Array.from({ length: STEPS + 2 }, (_, i) => 255 * curve(Math.min(1, (i / STEPS) ** 2)));
  for (let i = 0; i < plane.length; i++) {
    const at = Math.sqrt(Math.min(1, Math.max(0, plane[i]!))) * STEPS;
    const low = Math.floor(at);
    plane[i] = table[low]! + (at - low) * (table[low + 1]! - table[low]!);
  }
  return plane;
}

/** Unsharp mask on brightness, as phones do. */
function sharpen(planes: readonly Float32Array[], widthPx: number, heightPx: number, amount: number): void {
  if (amount === 0) return;
  const luma = new Float32Array(widthPx * heightPx);
  const [red, green, blue] = planes as [Float32Array, Float32Array, Float32Array];
  for (let i = 0; i < luma.length; i++) luma[i] = 0.299 * red[i]! + 0.587 * green[i]! + 0.114 * blue[i]!;
  const soft = luma.slice();
  blurPlane(soft, widthPx, heightPx, 1.3);
  for (let i = 0; i < luma.length; i++) {
    const lift = amount * Math.max(-40, Math.min(40, luma[i]! - soft[i]!));
    red[i]! += lift;
    green[i]! += lift;
    blue[i]! += lift;
  }
}

function interleave([red, green, blue]: readonly Float32Array[]): Uint8ClampedArray {
  const data = new Uint8ClampedArray(red!.length * 4);
  for (let i = 0; i < red!.length; i++) {
    data[4 * i] = red![i]!;
    data[4 * i + 1] = green![i]!;
    data[4 * i + 2] = blue![i]!;
    data[4 * i + 3] = 255;
  }
  return data;
}
