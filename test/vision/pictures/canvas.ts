/** Plain drawing for test pictures: floats for colours, filled shapes, blur, and the way to pixels. */
import type { Point } from '../../../src/core/card/homography.ts';
import type { Pixels } from '../../../src/vision/pixels.ts';

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
export interface Canvas {
  readonly rgb: Float32Array;
  readonly width: number;
  readonly height: number;
}

export type Colour = readonly [number, number, number];

export function blank(width: number, height: number, colour: Colour): Canvas {
  const rgb = new Float32Array(width * height * 3);
  for (let i = 0; i < rgb.length; i += 3) {
    rgb[i] = colour[0];
    rgb[i + 1] = colour[1];
    rgb[i + 2] = colour[2];
  }
  return { rgb, width, height };
}

export function fillBox(canvas: Canvas, x0: number, y0: number, x1: number, y1: number, colour: Colour): void {
  for (let y = Math.max(0, Math.round(y0)); y < Math.min(canvas.height, Math.round(y1)); y++) {
    for (let x = Math.max(0, Math.round(x0)); x < Math.min(canvas.width, Math.round(x1)); x++) {
      setPixel(canvas, x, y, colour);
    }
  }
}

export function fillQuad(canvas: Canvas, corners: readonly Point[], colour: Colour): void {
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

export function setPixel({ rgb, width }: Canvas, x: number, y: number, colour: Colour): void {
  const at = (y * width + x) * 3;
  rgb[at] = colour[0];
  rgb[at + 1] = colour[1];
  rgb[at + 2] = colour[2];
}

export function halve(canvas: Canvas): Canvas {
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

export function blur(canvas: Canvas, sigma: number): void {
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

export function toPixels(canvas: Canvas, noise: number, random: Random): Pixels {
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
