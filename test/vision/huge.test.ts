import { describe, expect, it } from 'vitest';
import { hugeFactor } from '../../src/core/photo/huge.ts';
import { shrinkHuge } from '../../src/vision/huge.ts';

describe('huge photos', () => {
  it('are those beyond 30 megapixels', () => {
    expect(hugeFactor({ width: 6000, height: 5000 })).toBe(1);
    expect(hugeFactor({ width: 6001, height: 5000 })).toBe(2);
    expect(hugeFactor({ width: 8660, height: 5773 })).toBe(2);
    expect(hugeFactor({ width: 16_384, height: 3600 })).toBe(2);
  });

  it('become the mean of each block, and a small one stays as it is', () => {
    const [width, height] = [8001, 6001];
    const words = new Uint32Array(width * height);
    for (let i = 0; i < words.length; i++) {
      const [red, green] = [(i % width) % 2 === 0 ? 10 : 20, Math.floor(i / width) % 2 === 0 ? 100 : 200];
      words[i] = 0xff070000 + (green << 8) + red;
    }
    const data = new Uint8ClampedArray(words.buffer);
    const small = shrinkHuge({ data, width, height });
    expect([small.width, small.height]).toEqual([4000, 3000]);
    for (const at of [0, 2000, small.data.length / 4 - 1]) {
      expect([...small.data.subarray(4 * at, 4 * at + 4)]).toEqual([15, 150, 7, 255]);
    }
    expect(shrinkHuge(small)).toBe(small);
  });
});
