import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mean } from '../../../src/core/math/average.ts';
import type { StripScale } from '../../../src/core/scale/schema.ts';
import type { Pixels } from '../../../src/vision/pixels.ts';
import { findStrip } from '../../../src/vision/strip/find-strip.ts';
import { padQuads } from '../../../src/vision/strip/places.ts';
import { plainScale } from '../../core/scale/fixtures.ts';

interface Lie {
  offsetXMm: number;
  offsetYMm: number;
  degrees: number;
  reversed: boolean;
  padColours: [number, number, number][];
  /** Light at the card's right end against its left. */
  fall: number;
  shadow: boolean;
  noise: number;
  /** Of the strip against a card that was printed larger or smaller than drawn. */
  size?: number;
}

const GREY = 128;
const flatLie: Lie = {
  offsetXMm: 0,
  offsetYMm: 0,
  degrees: 0,
  reversed: false,
  padColours: [
    [210, 120, 60],
    [190, 140, 190],
  ],
  fall: 1,
  shadow: false,
  noise: 0,
};

/** Draws the slot with a strip in it straight onto the flattened card, 10 px to the millimetre. */
function draw(scale: StripScale, lie: Lie | null): Pixels {
  const width = 1480;
  const height = 1050;
  const data = new Uint8ClampedArray(width * height * 4);
  let seed = 12345;
  const random = () => (seed = (seed * 1103515245 + 12345) % 2147483648) / 2147483648 - 0.5;
  const colourAt = lie ? colouredBy(scale, lie) : slotColour;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const xMm = (x + 0.5) / 10;
      const yMm = (y + 0.5) / 10;
      const colour = colourAt(xMm, yMm);
      const light = lie ? 1 + (lie.fall - 1) * (xMm / 148) : 1;
      const noise = lie ? lie.noise * random() : 0;
      const at = (y * width + x) * 4;
      for (let c = 0; c < 3; c++) data[at + c] = colour[c]! * light + noise;
      data[at + 3] = 255;
    }
  }
  return { data, width, height };
}

type Rgb = readonly [number, number, number];
const SLOT: Rgb = [GREY, GREY, GREY];
const CARD: Rgb = [238, 238, 236];
const PLASTIC: Rgb = [240, 240, 238];

function slotColour(x: number, y: number): Rgb {
  return x > 16 && x < 132 && y > 43.5 && y < 61.5 ? SLOT : CARD;
}

/** From a place on the card to one on the strip, mm. */
function placeOnStrip(scale: StripScale, lie: Lie): (x: number, y: number) => { t: number; across: number } {
  const angle = (lie.degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const size = lie.size ?? 1;
  const half = scale.strip.lengthMm / 2;
  return (x, y) => {
    const dx = x - (74 + lie.offsetXMm);
    const dy = y - (52.5 + lie.offsetYMm);
    const along = (dx * cos + dy * sin) / size;
    const across = (-dx * sin + dy * cos) / size;
    return lie.reversed ? { t: half - along, across: -across } : { t: half + along, across };
  };
}

function colouredBy(scale: StripScale, lie: Lie): (x: number, y: number) => Rgb {
  const toStrip = placeOnStrip(scale, lie);
  const { lengthMm, widthMm } = scale.strip;
  return (x, y) => {
    const { t, across } = toStrip(x, y);
    if (t >= 0 && t <= lengthMm && Math.abs(across) <= widthMm / 2) {
      const pad = scale.pads.findIndex(
        (one) => Math.abs(t - one.centreMm) <= one.widthMm / 2 && Math.abs(across) <= one.heightMm / 2,
      );
      return pad >= 0 ? lie.padColours[pad]! : PLASTIC;
    }
    const shaded = lie.shadow && t > 0 && t < lengthMm && across > 0 && across < widthMm / 2 + 1;
    const slot = slotColour(x, y);
    return shaded ? [slot[0] * 0.7, slot[1] * 0.7, slot[2] * 0.72] : slot;
  };
}

function padErrorsMm(scale: StripScale, lie: Lie): number[] {
  const search = findStrip(draw(scale, lie), scale);
  if (!search.found) throw new Error(search.reason);
  const toStrip = placeOnStrip(scale, lie);
  return padQuads(search.pose, scale).map((quad, i) => {
    const { t, across } = toStrip(mean(quad.map(([x]) => x)), mean(quad.map(([, y]) => y)));
    return Math.hypot(t - scale.pads[i]!.centreMm, across);
  });
}

describe('finding the strip', () => {
  const scale = plainScale();

  it('says when the slot is empty', () => {
    expect(findStrip(draw(scale, null), scale)).toEqual({ found: false, reason: 'no-strip' });
  });

  it('says when nothing but plastic can be seen', () => {
    const blank: Lie = { ...flatLie, padColours: scale.pads.map(() => [240, 240, 238]) };
    expect(findStrip(draw(scale, blank), scale)).toEqual({ found: false, reason: 'strip-face-down' });
  });

  it('finds the pads within 0.4 mm however the strip lies', () => {
    const lies = fc.record({
      offsetXMm: fc.double({ min: -4, max: 4, noNaN: true }),
      offsetYMm: fc.double({ min: -4, max: 4, noNaN: true }),
      degrees: fc.double({ min: -5, max: 5, noNaN: true }),
      reversed: fc.boolean(),
      fall: fc.double({ min: 0.75, max: 1.05, noNaN: true }),
      shadow: fc.boolean(),
      noise: fc.constant(16),
    });
    fc.assert(
      fc.property(lies, (lie) => {
        for (const error of padErrorsMm(scale, { ...flatLie, ...lie })) expect(error).toBeLessThan(0.4);
      }),
      { seed: 815, numRuns: 24 },
    );
  });

  it('copes with a first pad as white as the plastic and one as grey as the slot', () => {
    const pale: Lie = {
      ...flatLie,
      reversed: true,
      degrees: 3,
      padColours: [
        [236, 236, 232],
        [150, 128, 140],
      ],
    };
    for (const error of padErrorsMm(scale, pale)) expect(error).toBeLessThan(0.5);
  });

  it.each([1 / 0.9, 1 / 0.95, 1 / 1.05, 1 / 1.1])('tells that the strip is %f times as long on the card', (size) => {
    for (const reversed of [false, true]) {
      const lie = { ...flatLie, reversed, size, degrees: 2, noise: 16 };
      for (const error of padErrorsMm(scale, lie)) expect(error).toBeLessThan(0.5);
      const search = findStrip(draw(scale, lie), scale);
      expect(search.found && search.pose.scale).toBeCloseTo(size, 1);
    }
  });

  it.each([-8, -7, 7, 8])(
    'follows the one edge that is seen where it lies %d mm off, over the slot’s edge',
    (offsetYMm) => {
      for (const error of padErrorsMm(scale, { ...flatLie, offsetYMm, degrees: 1, noise: 16 })) {
        expect(error).toBeLessThan(0.5);
      }
    },
  );

  it('does not take what lies beside the slot for a strip in it', () => {
    const beside: Lie = { ...flatLie, offsetYMm: 13 };
    expect(findStrip(draw(scale, beside), scale)).toEqual({ found: false, reason: 'no-strip' });
  });

  it('takes the longest and widest strip that may be used, over the outline', () => {
    const long: StripScale = { ...scale, strip: { lengthMm: 110, widthMm: 8 } };
    for (const error of padErrorsMm(long, { ...flatLie, offsetYMm: 4, degrees: 5, offsetXMm: 2 })) {
      expect(error).toBeLessThan(0.5);
    }
  });
});
