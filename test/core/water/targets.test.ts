import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  CHLORINATIONS,
  chlorineTarget,
  SURFACES,
  TARGET_IDS,
  targetsFor,
  targetsSchema,
} from '../../../src/core/water/targets.ts';

const kinds = SURFACES.flatMap((surface) =>
  CHLORINATIONS.flatMap((chlorination) => [true, false].map((stabilised) => ({ surface, chlorination, stabilised }))),
);

describe('the targets by kind of pool', () => {
  it.each(kinds)('$surface, $chlorination, stabilised $stabilised: rise, and say where they come from', (kind) => {
    const targets = targetsFor(kind, 40);
    for (const id of TARGET_IDS) {
      const { low, aim, high, limit, lowFrom, aimFrom, highFrom } = targets[id];
      expect(low).toBeLessThanOrEqual(aim);
      expect(aim).toBeLessThanOrEqual(high);
      expect(high).toBeLessThanOrEqual(limit);
      for (const { source, status } of [lowFrom, aimFrom, highFrom]) {
        expect(source === '').toBe(status === 'common-practice');
      }
    }
  });

  it('aims lower in alkalinity where chlorine drives the pH up', () => {
    const aim = (chlorination: (typeof CHLORINATIONS)[number]) =>
      targetsFor({ surface: 'vinyl', chlorination, stabilised: true }, 40)['total-alkalinity'].aim;
    expect(aim('chlorinator')).toBeLessThan(aim('trichlor'));
    expect(aim('hypochlorite')).toBeLessThan(aim('dichlor'));
  });

  it('wants more calcium for plaster than for a liner', () => {
    const low = (surface: (typeof SURFACES)[number]) =>
      targetsFor({ surface, chlorination: 'hypochlorite', stabilised: true }, 40)['calcium-hardness'].low;
    expect(low('plaster')).toBe(200);
    expect(low('vinyl')).toBe(150);
  });
});

describe('free chlorine against stabilizer', () => {
  it('keeps the ratio of at most 20 and the code, whichever asks for more', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 300, noNaN: true }), (cya) => {
        const { low, aim, high } = chlorineTarget(cya);
        expect(cya / low).toBeLessThanOrEqual(20 + 1e-9);
        expect(low).toBeGreaterThanOrEqual(2);
        expect(low).toBeLessThanOrEqual(aim);
        expect(aim).toBeLessThanOrEqual(high);
      }),
      { seed: 71 },
    );
    expect(chlorineTarget(0).low).toBe(1);
    expect(chlorineTarget(80).low).toBe(4);
    expect(chlorineTarget(80).lowFrom.status).toBe('memory');
  });
});

describe('what the owner sets', () => {
  it('replaces the default and is marked', () => {
    const targets = targetsFor({ surface: 'vinyl', chlorination: 'chlorinator', stabilised: true }, 50, {
      salt: { low: 3600, aim: 4000, high: 4800 },
    });
    expect(targets.salt).toMatchObject({ low: 3600, aim: 4000, high: 4800, limit: 4800, edited: true });
    expect(targets.ph.edited).toBe(false);
  });

  it('is refused in sentences', () => {
    const messages = (input: unknown) => {
      const parsed = targetsSchema.safeParse(input);
      return parsed.success ? [] : parsed.error.issues.map((issue) => issue.message);
    };
    expect(messages({ ph: { low: 7.8, aim: 7.4, high: 7.2 } })).toEqual([
      'a target must rise from its lower end over its aim to its upper end',
    ]);
    expect(messages({ ph: { low: 7.2, aim: 7.4, high: 78 } })).toEqual(["a target here can't be above 8"]);
    expect(messages({ salt: { low: 'much', aim: 1, high: 2 } })).toEqual([
      'the lower end of a target must be a number',
    ]);
    expect(messages({ colour: { low: 1, aim: 1, high: 1 } }).length).toBe(1);
    expect(messages({})).toEqual([]);
  });
});
