import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contentsOf, phWithAir, waterFrom } from '../../../src/core/water/equilibrium.ts';
import { WaterError } from '../../../src/core/water/errors.ts';
import { add } from '../../../src/core/water/moves/add.ts';
import { correctionTo, lowerAlkalinity, type Correction } from '../../../src/core/water/paths.ts';
import { waterOf, type Water } from '../../../src/core/water/water.ts';
import { anyWater, runs } from './waters.ts';

/** The CO2 goes last, as in a pool. */
function carryOut(water: Water, { acid, bicarbonate, sodaAsh, carbonDioxideToAir }: Correction): Water {
  let now = add(water, 'sodium-bicarbonate', bicarbonate);
  now = add(now, 'soda-ash', sodaAsh);
  now = add(now, 'hydrochloric-acid', acid);
  const contents = contentsOf(now);
  return waterFrom({ ...contents, inorganicCarbon: contents.inorganicCarbon - carbonDioxideToAir / 1000 }, now.ph);
}

const targets = fc.record({
  ph: fc.double({ min: 7, max: 7.8, noNaN: true }),
  totalAlkalinity: fc.double({ min: 60, max: 140, noNaN: true }),
});
const pool = (readings: Partial<Water>) =>
  waterOf({ ph: 7.5, totalAlkalinity: 90, calciumHardness: 250, salt: 1000, ...readings });

describe('pH and alkalinity together', () => {
  it('carried out, the correction ends at both targets', () => {
    let reached = 0;
    fc.assert(
      fc.property(anyWater, targets, (water, target) => {
        let correction: Correction;
        try {
          correction = correctionTo(water, target);
        } catch (error) {
          expect(error).toBeInstanceOf(WaterError);
          return;
        }
        reached += 1;
        for (const amount of Object.values(correction)) expect(amount).toBeGreaterThanOrEqual(0);
        const after = carryOut(water, correction);
        expect(after.ph).toBeCloseTo(target.ph, 5);
        expect(after.totalAlkalinity).toBeCloseTo(target.totalAlkalinity, 6);
      }),
      runs(),
    );
    expect(reached).toBeGreaterThan(150);
  });

  it('nothing to do is nothing', () => {
    for (const amount of Object.values(correctionTo(pool({}), pool({})))) expect(amount).toBeCloseTo(0, 6);
  });

  it.each([
    ['low alkalinity, same pH: bicarbonate and a little acid or none', { totalAlkalinity: 50, ph: 7.5 }, 'bicarbonate'],
    ['low pH at the right alkalinity: lost CO2', { ph: 7.1 }, 'carbonDioxideToAir'],
    ['high alkalinity: acid and lost CO2', { totalAlkalinity: 160 }, 'acid'],
    ['low both: soda ash and bicarbonate', { totalAlkalinity: 60, ph: 7.2 }, 'sodaAsh'],
  ] as const)('%s', (_name, readings, part) => {
    expect(correctionTo(pool(readings), { ph: 7.5, totalAlkalinity: 90 })[part]).toBeGreaterThan(0.01);
  });

  it('does not send CO2 to air that would not take it', () => {
    const target = { ph: 9, totalAlkalinity: 90 };
    expect(target.ph).toBeGreaterThan(phWithAir(pool({})));
    expect(() => correctionTo(pool({}), target)).toThrow(new WaterError('out-of-reach'));
  });

  it('refuses a target that no water has: at pH 10.5 the hydroxide alone is 16 mg/L of alkalinity', () => {
    // 10^(10.5 - 14) mol/L of a single charge, 50 mg/L to the mmol: 15.8.
    expect(() => correctionTo(pool({}), { ph: 10.5, totalAlkalinity: 10 })).toThrow(new WaterError('contradictory'));
  });
});

describe('lowering the alkalinity by acid and air', () => {
  const high = pool({ ph: 7.7, totalAlkalinity: 200 });

  it('goes down in rounds that stay in the band and end at the goal', () => {
    const rounds = lowerAlkalinity(high, { ph: 7.5, totalAlkalinity: 90 }, 7);
    expect(rounds.length).toBeGreaterThan(1);
    let before = high;
    for (const { acid, afterAcid, afterAir } of rounds) {
      expect(acid).toBeGreaterThan(0);
      expect(afterAcid.ph).toBeGreaterThanOrEqual(7 - 1e-6);
      expect(afterAir.ph).toBeCloseTo(7.5, 6);
      expect(afterAcid.totalAlkalinity).toBeLessThan(before.totalAlkalinity);
      expect(afterAir.totalAlkalinity).toBe(afterAcid.totalAlkalinity);
      before = afterAir;
    }
    expect(before.totalAlkalinity).toBeCloseTo(90, 6);
  });

  it('takes as much acid as the alkalinity that goes, however many rounds', () => {
    const total = (lowestPh: number) =>
      lowerAlkalinity(high, { ph: 7.5, totalAlkalinity: 90 }, lowestPh).reduce((sum, { acid }) => sum + acid, 0);
    expect(total(7)).toBeCloseTo((200 - 90) / 50.043, 6);
    expect(total(7.3)).toBeCloseTo(total(7), 6);
  });

  it('begins with air where the pH is at the floor already', () => {
    const [first] = lowerAlkalinity(pool({ ph: 6.9, totalAlkalinity: 150 }), { ph: 7.5, totalAlkalinity: 100 }, 7);
    expect(first!.acid).toBe(0);
    expect(first!.afterAir.ph).toBeCloseTo(7.5, 6);
  });

  it('has nothing to do below the goal', () => {
    expect(lowerAlkalinity(pool({ totalAlkalinity: 80 }), { ph: 7.5, totalAlkalinity: 90 }, 7)).toEqual([]);
  });

  it.each([
    ['a pH that air does not give', { ph: 9, totalAlkalinity: 90 }, 7],
    ['no room between floor and goal', { ph: 7, totalAlkalinity: 90 }, 7.8],
  ])('refuses %s', (_name, goal, floor) => {
    expect(() => lowerAlkalinity(high, goal, floor)).toThrow(new WaterError('out-of-reach'));
  });
});
