import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { ANCHORS, NEUTRALS, SLOT } from '../../src/core/card/geometry.ts';
import { randomScene } from './random-scene.ts';
import { encodeJpeg, render, type Picture } from './render.ts';
import type { Scene } from './scene/types.ts';
import { project, truthOf, type Point } from './scene/view.ts';
import { PRACTICE_FIVE, PRACTICE_FOUR } from './strips/strips.ts';

const small = { widthPx: 640, heightPx: 480 };

/** A scene with nothing that disturbs: even light, no noise, balance right, plain tone. */
function clean(seed: number, change: Partial<Scene['camera']> = {}): Scene {
  const scene = randomScene(seed, 'everyday', PRACTICE_FOUR, { widthPx: 1600, heightPx: 1200 });
  return {
    ...scene,
    light: {
      ...scene.light,
      main: { kind: 'daylight', cctK: 6500 },
      second: null,
      shading: [0, 0, 0, 0, 0],
      shadows: [],
    },
    card: {
      variant: 'colour',
      printer: { dotGain: 0.08, n: 1.5, blackDensity: 1.35, blackWarmth: 0, strength: [1, 1, 1], greys: 'black' },
      paper: { level: 0.86, yellowness: 0, brightener: 0 },
      marginMm: [0, 0, 0, 0],
      mottle: 0,
    },
    camera: {
      ...scene.camera,
      exposure: 0.7,
      whiteBalance: [1, 1],
      tone: 'plain',
      saturation: 1,
      localTone: 0,
      flare: 0,
      vignetting: 0,
      shotNoise: 0,
      readNoise: 0,
      blurPx: 0.6,
      motion: { lengthPx: 0, turnDegrees: 0 },
      sharpening: 0,
      ...change,
    },
  };
}

/** Linear light of an encoded level, IEC 61966-2-1: blurred edges lie half-way in light, not in code. */
const decode = (level: number) =>
  level / 255 <= 0.04045 ? level / 255 / 12.92 : ((level / 255 + 0.055) / 1.055) ** 2.4;

const hash = ({ data }: Picture) => createHash('sha256').update(data).digest('hex');

const pixel = ({ data, width }: Picture, [u, v]: Point) => {
  const at = (Math.floor(v) * width + Math.floor(u)) * 4;
  return [data[at]!, data[at + 1]!, data[at + 2]!] as const;
};

const projectionOf = (scene: Scene) => project(scene.view, scene.widthPx, scene.heightPx);

const middleOf = (box: { xMm: number; yMm: number; widthMm: number; heightMm: number }) =>
  [box.xMm + box.widthMm / 2, box.yMm + box.heightMm / 2] as const;

test('the same scene gives the same pixels, another seed others', { tags: 'release' }, async () => {
  const [one, again, other] = await Promise.all(
    [7, 7, 8].map((seed) => render(randomScene(seed, 'hard', PRACTICE_FIVE, small))),
  );
  expect(hash(one!)).toBe(hash(again!));
  expect(hash(one!)).not.toBe(hash(other!));
});

describe('where things are', () => {
  /** Green light along a line, and where it crosses half-way between its ends. */
  function crossing(picture: Picture, from: Point, to: Point): number {
    const steps = 80;
    const green = Array.from({ length: steps + 1 }, (_, i) => {
      const t = i / steps;
      return bilinearGreen(picture, from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1]));
    });
    const half = (green[0]! + green[steps]!) / 2;
    const i = green.findIndex((value, k) => k > 0 && (value - half) * (green[k - 1]! - half) <= 0);
    const t = (i - 1 + (half - green[i - 1]!) / (green[i]! - green[i - 1]!)) / steps;
    return t * Math.hypot(to[0] - from[0], to[1] - from[1]);
  }

  function bilinearGreen({ data, width }: Picture, u: number, v: number): number {
    const [x, y] = [u - 0.5, v - 0.5];
    const [x0, y0] = [Math.floor(x), Math.floor(y)];
    const green = (dx: number, dy: number) => decode(data[((y0 + dy) * width + x0 + dx) * 4 + 1]!);
    const upper = green(0, 0) + (x - x0) * (green(1, 0) - green(0, 0));
    const lower = green(0, 1) + (x - x0) * (green(1, 1) - green(0, 1));
    return upper + (y - y0) * (lower - upper);
  }

  test.each([21, 22, 23])(
    'fiducial frames of scene %i lie where the truth says, to a sixth of a pixel',
    async (seed) => {
      const scene = clean(seed);
      const picture = await render(scene);
      for (const { centre, corners } of truthOf(projectionOf(scene)).fiducials) {
        corners.forEach((corner, i) => {
          const next = corners[(i + 1) % 4]!;
          const edge: Point = [(corner[0] + next[0]) / 2, (corner[1] + next[1]) / 2];
          const reach = Math.hypot(edge[0] - centre[0], edge[1] - centre[1]);
          const along = (t: number): Point => [
            edge[0] + (t * (edge[0] - centre[0])) / reach,
            edge[1] + (t * (edge[1] - centre[1])) / reach,
          ];
          // From within the black frame (2 mm wide) out to the quiet paper beyond it.
          const stepPx = Math.min(4, (1.2 / 7) * reach);
          expect(Math.abs(crossing(picture, along(-stepPx), along(stepPx)) - stepPx)).toBeLessThan(1 / 6);
        });
      }
    },
  );
});

describe('what colours come out', () => {
  test('greys are neutral and darker with more ink', async () => {
    const scene = clean(31);
    const picture = await render(scene);
    const projection = projectionOf(scene);
    const byInk = [...NEUTRALS]
      .sort((one, two) => one.ink - two.ink)
      .map((neutral) => ({ ink: neutral.ink, rgb: pixel(picture, projection.toPicture(...middleOf(neutral))) }));
    for (const { rgb } of byInk) expect(Math.max(...rgb) - Math.min(...rgb)).toBeLessThanOrEqual(4);
    const rising = byInk.filter((grey, i) => i > 0 && grey.ink > byInk[i - 1]!.ink);
    let before = byInk[0]!.rgb[1];
    for (const { rgb } of rising) {
      expect(rgb[1]).toBeLessThan(before);
      before = rgb[1];
    }
  });

  test('anchors come out near the colours that were sent, for paper counting as white', async () => {
    const scene = clean(32, { exposure: 0.87 });
    const picture = await render(scene);
    const projection = projectionOf(scene);
    // Inks can't reach the palest cyan nor a teal without any red: a check of order, not of accuracy.
    for (const anchor of ANCHORS) {
      const seen = pixel(picture, projection.toPicture(...middleOf(anchor)));
      anchor.srgb.forEach((value, c) => expect(Math.abs(seen[c]! - 255 * value), anchor.id).toBeLessThan(60));
    }
  });

  test('half the exposure is half the light', { tags: 'release' }, async () => {
    const [bright, dim] = await Promise.all([clean(33), clean(33, { exposure: 0.35 })].map((scene) => render(scene)));
    const place = projectionOf(clean(33)).toPicture(...middleOf(NEUTRALS[2]!));
    const ratio = decode(pixel(dim!, place)[1]) / decode(pixel(bright!, place)[1]);
    expect(ratio).toBeCloseTo(0.5, 1);
  });

  test('the strip covers the slot and its pads differ from its plastic', async () => {
    const scene = clean(34);
    const picture = await render(scene);
    const projection = projectionOf(scene);
    const strip = scene.strip!;
    const sign = strip.reversed ? -1 : 1;
    const turn = ((strip.angleDegrees + (strip.reversed ? 180 : 0)) * Math.PI) / 180;
    const along = (fromPadEndMm: number): Point => {
      const u = fromPadEndMm - PRACTICE_FOUR.lengthMm / 2;
      const x = SLOT.xMm + SLOT.widthMm / 2 + strip.alongMm + u * Math.cos(turn);
      const y = SLOT.yMm + SLOT.heightMm / 2 + strip.acrossMm + u * Math.sin(turn);
      return projection.toPicture(x, y);
    };
    const plastic = pixel(picture, along(60));
    const grey = pixel(picture, projection.toPicture(74 + sign * (strip.alongMm + 54), 52.5));
    expect(plastic[1]).toBeGreaterThan(grey[1] + 40);
    const alkalinity = pixel(picture, along(PRACTICE_FOUR.pads[0]!.centreMm));
    expect(Math.max(...plastic.map((value, c) => Math.abs(value - alkalinity[c]!)))).toBeGreaterThan(15);
  });
});

test('a scene without a card shows only the table', async () => {
  const scene = randomScene(41, 'everyday', PRACTICE_FOUR, small);
  const [whole, bare] = await Promise.all([scene, { ...scene, card: null, strip: null }].map((one) => render(one)));
  expect(hash(whole!)).not.toBe(hash(bare!));
});

test('saved as a JPEG that says it is simulated', async () => {
  const scene = randomScene(42, 'everyday', PRACTICE_FOUR, small);
  const jpeg = await encodeJpeg(await render(scene), 85);
  expect([...jpeg.subarray(0, 2)]).toEqual([0xff, 0xd8]);
  expect(jpeg.includes('Simulated picture')).toBe(true);
});
