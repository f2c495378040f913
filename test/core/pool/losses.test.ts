import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { concentrationAfter, dailyFlows, type WaterBalance } from '../../../src/core/pool/losses.ts';

const still: WaterBalance = {
  volumeLitres: 26_000,
  surfaceM2: 23.76,
  evaporationMmPerDay: 0,
  rainMmPerDay: 0,
  splashLitresPerDay: 0,
  backwashLitresPerDay: 0,
};

/** Short steps of the same bookkeeping: let out, fill up, mix. */
function stepped(balance: WaterBalance, start: number, inFill: number, days: number): number {
  const { fillLitres, outLitres } = dailyFlows(balance);
  const steps = 20_000;
  const dt = days / steps;
  let milligrams = start * balance.volumeLitres;
  for (let i = 0; i < steps; i++) {
    const middle = milligrams + (dt / 2) * (fillLitres * inFill - (outLitres * milligrams) / balance.volumeLitres);
    milligrams += dt * (fillLitres * inFill - (outLitres * middle) / balance.volumeLitres);
  }
  return milligrams / balance.volumeLitres;
}

describe('what leaves with the water', () => {
  it('evaporation leaves salt where it is and brings hardness with the fill water', () => {
    const dry = { ...still, evaporationMmPerDay: 5 };
    expect(concentrationAfter(dry, 3200, 0, 120)).toBeCloseTo(3200, 9);
    // 5 mm on 23.76 m2 for 100 days: 11,880 L of fill at 200 mg/L into 26,000 L
    expect(concentrationAfter(dry, 150, 200, 100)).toBeCloseTo(150 + (11_880 * 200) / 26_000, 6);
  });

  it('backwash takes salt and stabilizer, as in continuous dilution (D109: 0.693 volumes halve it)', () => {
    const washed = { ...still, backwashLitresPerDay: 260 };
    expect(concentrationAfter(washed, 100, 0, 69.315)).toBeCloseTo(50, 3);
  });

  it('rain beyond what is lost runs over', () => {
    const wet = { ...still, rainMmPerDay: 10, evaporationMmPerDay: 2 };
    expect(dailyFlows(wet).overflowLitres).toBeCloseTo(8 * 23.76, 9);
    expect(dailyFlows(wet).fillLitres).toBe(0);
    expect(concentrationAfter(wet, 3200, 0, 30)).toBeLessThan(3200);
  });

  it('agrees with stepping through the days', () => {
    const amount = fc.double({ min: 0, max: 10, noNaN: true });
    const litres = fc.double({ min: 0, max: 500, noNaN: true });
    fc.assert(
      fc.property(amount, amount, litres, litres, (evaporationMmPerDay, rainMmPerDay, splash, backwash) => {
        const balance = {
          ...still,
          evaporationMmPerDay,
          rainMmPerDay,
          splashLitresPerDay: splash,
          backwashLitresPerDay: backwash,
        };
        const closed = concentrationAfter(balance, 3000, 80, 100);
        expect(closed / stepped(balance, 3000, 80, 100)).toBeCloseTo(1, 5);
        const { outLitres, fillLitres } = dailyFlows(balance);
        expect(outLitres + evaporationMmPerDay * 23.76 - rainMmPerDay * 23.76 - fillLitres).toBeCloseTo(0, 6);
      }),
      { seed: 61, numRuns: 40 },
    );
  });
});
