/** Light that falls off in every way the correction knows, and cameras whose channels or curves differ. */
import { describe, expect, it } from 'vitest';
import { SLOT } from '../../../src/core/card/geometry.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { decodeSrgb, linearToLab, type Triple } from '../../../src/core/colour/lab.ts';
import { fitNeutrals } from '../../../src/core/colour/neutrals.ts';
import { card, encode, PADS, photograph, plain, type World } from './simple-card.ts';

const PLACES = [
  [12, 15],
  [136, 15],
  [74, 52],
  [12, 90],
  [136, 90],
] as const;

/** The largest error over the card, CIEDE2000. */
function mostOff(change: Partial<World>, print: Parameters<typeof fitNeutrals>[1] = null): number {
  const world = { ...plain, ...change };
  const { toLinear } = fitNeutrals(card(world), print);
  const found = PADS.flatMap((pad) =>
    PLACES.map(([x, y]) => ciede2000(linearToLab(toLinear(photograph(world, pad, x, y), x, y)), linearToLab(pad))),
  );
  return Math.max(...found);
}

describe('correction from the greys, all over the card', () => {
  it.each([
    { fallXX: -0.15 },
    { fallXX: 0.15 },
    { fallYY: -0.15 },
    { fallYY: 0.15 },
    { fallXY: 0.12 },
    { fallXY: -0.12 },
    { castX: 0.05 },
    { castY: 0.05 },
    { castX: -0.04, castY: 0.04, fallXY: 0.1, fallXX: 0.1 },
  ])('takes out %j', (change) => {
    expect(mostOff(change)).toBeLessThan(1.2);
  });

  /* With the print known nothing else can stand for them: half of what an eye just tells apart is left at most. */
  const known = { dotGain: 0.17, black: 0.05 };

  it.each([
    [1.12, 1, 1],
    [1, 1, 0.88],
    [1.08, 1, 0.92],
  ] as const)('takes out channels of their own contrast: %d %d %d', (...channels) => {
    expect(mostOff({ channels }, known)).toBeLessThan(0.5);
  });

  it.each([0.2, 0.6, -0.2, -0.4, -0.6])('takes out an S-shaped curve of %d', (bend) => {
    expect(mostOff({ bend }, known)).toBeLessThan(0.5);
  });

  it('reports the change of light where the slot lies', () => {
    for (const change of [{ fallXX: 0.3 }, { fallYY: 0.3 }, { fallX: 0.15, fallXX: -0.2 }, { fallY: 0.25 }]) {
      const { fallX, fallY, fallXX = 0, fallYY = 0 } = { ...plain, ...change };
      const light = Array.from({ length: 41 * 41 }, (_, k) => {
        const x = (SLOT.xMm + (SLOT.widthMm * (k % 41)) / 40) / 74 - 1;
        const y = (SLOT.yMm + (SLOT.heightMm * Math.floor(k / 41)) / 40) / 52.5 - 1;
        return Math.exp(fallX * x + fallY * y + fallXX * x * x + fallYY * y * y);
      });
      const mean = light.reduce((sum, one) => sum + one, 0) / light.length;
      const expected = (100 * (Math.max(...light) - Math.min(...light))) / mean;
      const { shadingPercent } = fitNeutrals(card({ ...plain, ...change }));
      expect(Math.abs(shadingPercent - expected)).toBeLessThan(1);
    }
  });
});

describe('mottle', () => {
  /* Misfits that were counted as reflectance would shrink with the scale: a soft photo's greys would be squeezed. */
  it.each([0.6, 0.7, 1])('of 5 %% in the greys leaves the scale as long as it is, at contrast %d', (contrast) => {
    const world = { ...plain, contrast };
    const even = card(world);
    const mottled = even.neutrals.map((sample, i) => {
      const factor = Math.exp(i % 2 === 0 ? -0.05 : 0.05);
      return { ...sample, rgb: sample.rgb.map((level) => encode(decodeSrgb(level) * factor)) as unknown as Triple };
    });
    const { toLinear } = fitNeutrals({ ...even, neutrals: mottled }, { dotGain: 0.17, black: 0.05 });
    for (const value of [0.86, 0.4, 0.1]) {
      const grey: Triple = [value, value, value];
      const seen = toLinear(photograph(world, grey, 74, 52), 74, 52);
      expect(ciede2000(linearToLab(seen), linearToLab(grey))).toBeLessThan(0.5);
    }
  });
});
