import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contentsOf, phWithAir } from '../../../../src/core/water/equilibrium.ts';
import { add, addReagent } from '../../../../src/core/water/moves/add.ts';
import { aerationOf } from '../../../../src/core/water/moves/aerate.ts';
import { electrolyse, useUpChlorine } from '../../../../src/core/water/moves/chlorine.ts';
import { replaceWater, type MixingReading } from '../../../../src/core/water/moves/dilute.ts';
import { REAGENTS, SODIUM_HYDROXIDE, type ReagentId } from '../../../../src/core/water/moves/reagents.ts';
import type { Contents, Water } from '../../../../src/core/water/water.ts';
import { anyWater, runs } from '../waters.ts';

const anyReagent = fc.constantFrom(...(Object.keys(REAGENTS) as ReagentId[]));
const amount = (most: number) => fc.double({ min: 0, max: most, noNaN: true });
const share = fc.double({ min: 0, max: 1, noNaN: true });
const READINGS: MixingReading[] = [
  'totalAlkalinity',
  'calciumHardness',
  'salt',
  'cyanuricAcid',
  'boron',
  'freeChlorine',
  'combinedChlorine',
  'sulfate',
];
const SETTLED = 1e-7;
/** pH: a step of aeration's table, where stabilizer holds all but all of the alkalinity; else far less (`moves.test.ts`). */
const TABLED = 1 / 32;

describe('what must always hold', () => {
  it('more acid never raises the pH, more base never lowers it', () => {
    fc.assert(
      fc.property(anyWater, amount(2), amount(2), (water, some, more) => {
        for (const acid of ['hydrochloric-acid', 'sodium-bisulfate'] as const) {
          expect(add(water, acid, some + more).ph).toBeLessThanOrEqual(add(water, acid, some).ph + SETTLED);
        }
        // Soda ash would lower a pH above its own.
        const [less, greater] = [add(water, 'soda-ash', some / 10).ph, add(water, 'soda-ash', (some + more) / 10).ph];
        expect(greater).toBeGreaterThanOrEqual(less - SETTLED);
        expect(addReagent(water, SODIUM_HYDROXIDE, some + more).ph).toBeGreaterThanOrEqual(
          addReagent(water, SODIUM_HYDROXIDE, some).ph - SETTLED,
        );
      }),
      runs(),
    );
  });

  it('adding conserves everything: the contents afterwards are those before plus the reagent', () => {
    fc.assert(
      fc.property(anyWater, anyReagent, amount(1), (water, reagent, mmol) => {
        const before = contentsOf(water);
        const after = contentsOf(add(water, reagent, mmol));
        const brings: Partial<Contents> = REAGENTS[reagent].brings;
        for (const key of Object.keys(before) as (keyof Contents)[]) {
          expect(after[key]).toBeCloseTo(before[key] + ((brings[key] ?? 0) * mmol) / 1000, 10);
        }
      }),
      runs(),
    );
  });

  it('adding in two goes is adding at once', () => {
    fc.assert(
      fc.property(anyWater, anyReagent, amount(0.5), amount(0.5), (water, reagent, one, two) => {
        const together = add(water, reagent, one + two);
        const apart = add(add(water, reagent, one), reagent, two);
        for (const key of Object.keys(water) as (keyof Water)[]) expect(apart[key]).toBeCloseTo(together[key], 6);
      }),
      runs(),
    );
  });

  it('the order of two products makes no difference in the end', () => {
    fc.assert(
      fc.property(anyWater, anyReagent, anyReagent, amount(0.5), (water, one, two, mmol) => {
        expect(add(add(water, one, mmol), two, mmol).ph).toBeCloseTo(add(add(water, two, mmol), one, mmol).ph, 6);
      }),
      runs(),
    );
  });

  it('acid and as much lye leave salt', () => {
    fc.assert(
      fc.property(anyWater, amount(1), (water, mmol) => {
        const after = addReagent(add(water, 'hydrochloric-acid', mmol), SODIUM_HYDROXIDE, mmol);
        expect(after.totalAlkalinity).toBeCloseTo(water.totalAlkalinity, 8);
        expect(after.salt).toBeCloseTo(water.salt + mmol * 58.44, 6);
        expect(Math.abs(after.ph - water.ph)).toBeLessThan(0.04);
      }),
      runs(),
    );
  });

  it('aeration takes the pH towards its value with air', () => {
    fc.assert(
      fc.property(anyWater, share, share, (water, a, b) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)];
        const inTheEnd = phWithAir(water);
        const aerated = aerationOf(water);
        const distance = (ph: number) => Math.abs(ph - inTheEnd);
        const some = aerated(water.ph, less);
        expect(distance(some)).toBeLessThanOrEqual(distance(water.ph) + TABLED);
        expect(distance(aerated(water.ph, more))).toBeLessThanOrEqual(distance(some) + TABLED);
        expect(distance(aerated(water.ph, 1))).toBeLessThan(TABLED);
        expect(Math.abs(aerated(water.ph, 0) - water.ph)).toBeLessThan(1e-9);
        expect((some - water.ph) * (inTheEnd - water.ph)).toBeGreaterThanOrEqual(-TABLED);
      }),
      runs(),
    );
  });

  it('dilution takes everything towards the fill water, in proportion', () => {
    fc.assert(
      fc.property(anyWater, anyWater, share, (water, fill, part) => {
        const mixed = replaceWater(water, fill, part);
        for (const reading of READINGS) {
          expect(mixed[reading]).toBeCloseTo(water[reading] + part * (fill[reading] - water[reading]), 6);
        }
        const [ours, theirs, both] = [contentsOf(water), contentsOf(fill), contentsOf(mixed)];
        expect(both.inorganicCarbon).toBeCloseTo(
          ours.inorganicCarbon + part * (theirs.inorganicCarbon - ours.inorganicCarbon),
          10,
        );
      }),
      runs(),
    );
  });

  it('replacing nothing changes nothing; replacing all leaves the fill water', () => {
    fc.assert(
      fc.property(anyWater, anyWater, (water, fill) => {
        for (const [mixed, expected] of [
          [replaceWater(water, fill, 0), water],
          [replaceWater(water, fill, 1), fill],
        ] as const) {
          for (const key of Object.keys(water) as (keyof Water)[]) expect(mixed[key]).toBeCloseTo(expected[key], 6);
        }
      }),
      runs(),
    );
  });

  it('making chlorine and using it up is no change', () => {
    fc.assert(
      fc.property(anyWater, fc.double({ min: 0.001, max: 10, noNaN: true }), (water, mgL) => {
        const back = useUpChlorine(electrolyse(water, mgL), mgL);
        for (const key of Object.keys(water) as (keyof Water)[]) expect(back[key]).toBeCloseTo(water[key], 6);
      }),
      runs(),
    );
  });

  it('using up chlorine never raises the pH', () => {
    fc.assert(
      fc.property(anyWater, share, (water, part) => {
        expect(useUpChlorine(water, part * water.freeChlorine).ph).toBeLessThanOrEqual(water.ph + SETTLED);
      }),
      runs(),
    );
  });
});
