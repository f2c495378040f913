import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { turned, turnedPlanes } from '../../src/vision/turn.ts';
import { planesFrom } from './planes.ts';

/** Wider than a tile and odd in both directions. */
const [WIDTH, HEIGHT] = [75, 41];
const data = Uint8ClampedArray.from({ length: 4 * WIDTH * HEIGHT }, (_, i) => (i % 4 === 3 ? 255 : (i * 7919) % 251));
const picture = { data, width: WIDTH, height: HEIGHT };
const TURNS = [0, 90, 180, 270].flatMap((rotation) => [false, true].map((flip) => ({ rotation, flip })));

describe('turning a picture', () => {
  it.each(TURNS)('by $rotation degrees, flipped: $flip, is as libvips turns it', async (turn) => {
    // Rotation first, then left for right: https://www.w3.org/TR/webcodecs/#videoframe-rotation
    const straight = sharp(data, { raw: { width: WIDTH, height: HEIGHT, channels: 4 } }).rotate(turn.rotation);
    const rotated = await straight.raw().toBuffer({ resolveWithObject: true });
    const { width, height } = rotated.info;
    const wanted = await sharp(rotated.data, { raw: { width, height, channels: 4 } })
      .flop(turn.flip)
      .raw()
      .toBuffer();
    const found = turned(picture, turn, new Uint8ClampedArray(data.length));
    expect([found.width, found.height]).toEqual([width, height]);
    expect(Buffer.compare(Buffer.from(found.data), wanted)).toBe(0);
  });

  it.each(TURNS)('turns planes by $rotation degrees, flipped: $flip, as it turns pixels', (turn) => {
    const first = turned(picture, turn, new Uint8ClampedArray(data.length));
    const planes = turnedPlanes(planesFrom(picture, 0, 0), turn);
    expect(planes).toEqual(planesFrom(first, 0, 0));
  });

  it('lets coarse colour lie coarse the other way in a picture on its side', () => {
    const { across, down, width, cb } = turnedPlanes(planesFrom(picture, 1, 0), { rotation: 90, flip: false });
    expect({ across, down, width, length: cb.length }).toEqual({ across: 0, down: 1, width: HEIGHT, length: 38 * 41 });
  });

  it('refuses what is no quarter turn', () => {
    expect(() => turned(picture, { rotation: 45, flip: false }, new Uint8ClampedArray(data.length))).toThrow(
      RangeError,
    );
  });
});
