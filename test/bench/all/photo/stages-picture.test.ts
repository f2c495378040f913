import { describe, expect, it } from 'vitest';
import { drawStages } from './stages-picture.ts';

describe('the picture of a first reading’s stages', () => {
  const svg = drawStages(
    [
      { name: 'one', warm: 10, cold: 100 },
      { name: 'two', warm: 40, cold: 50 },
    ],
    'a machine <of ours>',
  );
  const bars = [...svg.matchAll(/d="M([\d.]+) [\d.]+H([\d.]+)V/g)].map(([, from, to]) => [Number(from), Number(to)]);

  it('puts each stage where the one before ended, its warm part in it', () => {
    const [one, oneWarm, two, twoWarm] = bars as [number, number][];
    expect(two![0]).toBe(one![1]);
    expect(one![1] - one![0]).toBeCloseTo(2 * (two![1] - two![0]), 0);
    expect(oneWarm![1] - oneWarm![0]).toBeCloseTo((one![1] - one![0]) / 10, 0);
    expect(twoWarm![0]).toBe(two![0]);
  });

  it('says in words what it shows', () => {
    expect(svg).toContain('<desc id="d">one: 100, warm 10; two: 50, warm 40.</desc>');
    expect(svg).toContain('a machine &lt;of ours>');
  });
});
