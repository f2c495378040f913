/** Hints from pictures: for each one that triggers it and one just inside that doesn't. Frames of 640 x 480. */
import { beforeAll, describe, expect, it } from 'vitest';
import { loadScale } from '../../../src/cli/scales.ts';
import { hintFor } from '../../../src/core/capture/hints.ts';
import type { StripScale } from '../../../src/core/scale/schema.ts';
import { lookAt } from '../../../src/vision/track/look.ts';
import { render } from '../../studio/render.ts';
import { SAMPLES } from '../../studio/samples.ts';
import type { Scene } from '../../studio/scene/types.ts';
import { emptyTable, photograph, type Shot } from '../pictures.ts';

let four: StripScale;

beforeAll(async () => {
  four = await loadScale('practice-four');
});

const BASE = SAMPLES.find(({ file }) => file === 'refused/too-dark.jpg')!.scene;
const STRIP = { ...BASE.strip!, glints: 0 };
const GOOD: Scene = {
  ...{ ...BASE, widthPx: 640, heightPx: 480, strip: STRIP },
  camera: { ...BASE.camera, exposure: 0.65, shotNoise: 0.009, readNoise: 0.0012, tone: 'gentle', blurPx: 0.5 },
};

const spot = (sizeMm: number) => [{ pad: 1, alongMm: 0.4, acrossMm: 0.2, sizeMm, strength: 0.9 }];

/** The hint for a card that rests. */
async function hintAt(scene: Scene) {
  const picture = await render(scene);
  const glimpse = lookAt(picture, four, true);
  return hintFor(glimpse, glimpse.close, true);
}

const PAIRS: readonly (readonly [code: string, outside: Partial<Scene>, inside: Partial<Scene>])[] = [
  ['nearer', { view: { ...GOOD.view, cardFill: 0.44 } }, { view: { ...GOOD.view, cardFill: 0.56 } }],
  ['flatter', { view: { ...GOOD.view, tiltDegrees: 34 } }, { view: { ...GOOD.view, tiltDegrees: 26 } }],
  ['whole-card', { view: { ...GOOD.view, offset: [0.2, 0] } }, { view: { ...GOOD.view, offset: [0.1, 0] } }],
  [
    'more-light',
    { camera: { ...GOOD.camera, exposure: 0.03, tone: 'plain' } },
    { camera: { ...GOOD.camera, exposure: 0.2, tone: 'plain' } },
  ],
  [
    'less-light',
    { camera: { ...GOOD.camera, exposure: 2.3, tone: 'plain' } },
    { camera: { ...GOOD.camera, exposure: 0.8, tone: 'plain' } },
  ],
  ['lay-strip', { strip: null }, {}],
  ['glare', { strip: { ...STRIP, glare: spot(1.6) } }, { strip: { ...STRIP, glare: spot(0.3) } }],
  ['hold-still', { camera: { ...GOOD.camera, blurPx: 3.2 } }, { camera: { ...GOOD.camera, blurPx: 1.2 } }],
];

describe('hints from pictures', () => {
  it.each(PAIRS)('%s', async (code, outside, inside) => {
    expect(await hintAt({ ...GOOD, ...outside })).toBe(code);
    expect(await hintAt({ ...GOOD, ...inside })).toBeNull();
  });

  it('find-card, where there is only a table', () => {
    const table = emptyTable({
      seed: 3,
      width: 640,
      height: 480,
      fill: 1,
      turnDegrees: 0,
      tiltDegrees: 0,
      tiltAxisDegrees: 0,
      clutter: 12,
    });
    const glimpse = lookAt(table, four, true);
    expect(hintFor(glimpse, glimpse.close, true)).toBe('find-card');
  });

  it('check-strip, where the pads can’t be seen', async () => {
    expect(await hintAt({ ...GOOD, strip: { ...STRIP, faceDown: true } })).toBe('check-strip');
  });

  it('names the pad that mirrors a light', async () => {
    const picture = await render({ ...GOOD, strip: { ...STRIP, glare: spot(1.6) } });
    const { close } = lookAt(picture, four, true);
    expect(close!.glarePads).toEqual([1]);
    expect(close!.pads).toHaveLength(four.pads.length);
  });
});

describe('the card in a frame', () => {
  const shots = Array.from({ length: 24 }, (_, i): Shot => {
    const tiltDegrees = (i * 40) / 23;
    const turns = { turnDegrees: i * 67, tiltAxisDegrees: i * 131 };
    return {
      seed: 40 + i,
      width: 640,
      height: 480,
      fill: 0.55 + 0.015 * i,
      tiltDegrees,
      ...turns,
      blurPx: 0.6,
      noise: 4,
    };
  });

  it('has its corners where they are, and the tilt it was given', { tags: 'release' }, () => {
    const offs = shots.map((shot) => {
      const photo = photograph(shot);
      const { card } = lookAt(photo.pixels, four, false);
      expect(card, `seed ${shot.seed}`).not.toBeNull();
      const [x, y] = photo.toPhoto(148, 105);
      expect(Math.hypot(card!.corners[2][0] - x, card!.corners[2][1] - y)).toBeLessThan(2);
      return Math.abs(card!.tiltDegrees - shot.tiltDegrees);
    });
    // Near the upright the cosine hardly changes: what can't be told there doesn't matter.
    const known = offs.filter((_, i) => shots[i]!.tiltDegrees > 15);
    expect(known.length).toBeGreaterThan(10);
    expect(Math.max(...known)).toBeLessThan(4);
    expect(Math.max(...offs)).toBeLessThan(12);
  });

  it('is looked at closely only when that is asked', () => {
    const { pixels } = photograph(shots[3]!);
    expect(lookAt(pixels, four, false).close).toBeNull();
    expect(lookAt(pixels, four, true).close).toMatchObject({ strip: 'no-strip' });
  });
});
