import { describe, expect, it } from 'vitest';
import { sketchOf } from '../../../src/components/drawings/photo-sketch.ts';
import { RIGHT, TROUBLES } from '../../../src/components/read/troubles.ts';
import { refusalMessages, warningMessages } from '../../../src/words/reading.ts';

describe('the drawings of wrong and right', () => {
  const codes = [...refusalMessages(), ...warningMessages()].map(({ code }) => code);

  it('are there for every reason, once', () => {
    expect(Object.keys(TROUBLES).sort()).toEqual([...codes].sort());
    expect(new Set(codes).size).toBe(codes.length);
  });

  it.each(codes)('%s: wrong differs from right, and nothing is drawn outside the photo', (code) => {
    const wrong = sketchOf(TROUBLES[code].sketch);
    const right = sketchOf(RIGHT.sketch);
    expect(wrong).not.toEqual(right);
    for (const path of [...Object.values(wrong), ...Object.values(right)] as string[]) {
      const places = [...path.matchAll(/[MQL ](-?\d+(?:\.\d+)?) (-?\d+(?:\.\d+)?)/g)];
      for (const [, x] of places) expect(Number(x)).toBeLessThan(125);
      expect(path).not.toMatch(/NaN|undefined/);
    }
  });
});
