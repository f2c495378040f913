import { describe, expect, it } from 'vitest';
import { followChlorine, type ChlorineEvent } from '../../../src/core/track/fast-chlorine.ts';
import { followPh, type PhEvent } from '../../../src/core/track/fast-ph.ts';
import { addReagent } from '../../../src/core/water/moves/add.ts';
import { REAGENTS } from '../../../src/core/water/moves/reagents.ts';
import { phWithAir } from '../../../src/core/water/equilibrium.ts';
import { waterOf } from '../../../src/core/water/water.ts';

const SURE = { bound: null, method: 'drops', sharedVariance: 0 } as const;

function read(day: number, quantity: string, value: number, deviation: number) {
  return { kind: 'read', day, quantity, value, deviation, entry: `${day}`, ...SURE } as const;
}

describe('free chlorine between readings', () => {
  const habits = { madePerDay: 0, lossPerDay: 0.5, lossDoubt: 0.01 };

  it('falls by the same share each day where nothing goes in', () => {
    // 4 e^(-0.5 t): the solution of dc/dt = -0.5 c.
    const at = followChlorine([read(0, 'free-chlorine', 4, 0.001)], 3, habits, 0)!;
    expect(at.mean).toBeCloseTo(4 * Math.exp(-1.5), 1);
    expect(Math.sqrt(at.variance)).toBeLessThan(1);
  });

  it('settles where as much is made as is lost', () => {
    const made = { ...habits, madePerDay: 2 };
    expect(followChlorine([read(0, 'free-chlorine', 0.5, 0.01)], 60, made, 0)!.mean).toBeCloseTo(4, 0);
  });

  it('learns the use from two readings', () => {
    const doubtful = { ...habits, lossDoubt: 0.8 };
    const events = [0, 1, 2, 3, 4].map((day) => read(day, 'free-chlorine', 5 * Math.exp(-0.3 * day), 0.05));
    const { use, mean } = followChlorine(events, 4, doubtful, 0)!;
    expect(use.mean / mean).toBeGreaterThan(0.22);
    expect(use.mean / mean).toBeLessThan(0.38);
  });

  it('adds what was poured in, and is never below none', () => {
    const events: ChlorineEvent[] = [
      read(0, 'free-chlorine', 1, 0.01),
      { kind: 'added', day: 0, mgPerLitre: 3, doubt: 0.1 },
    ];
    expect(followChlorine(events, 0, habits, 0)!.mean).toBeCloseTo(4, 1);
    expect(followChlorine(events, 30, habits, 0)!.mean).toBeGreaterThanOrEqual(0);
  });

  it('knows less and less', () => {
    const spread = (day: number) =>
      followChlorine([read(0, 'free-chlorine', 3, 0.2)], day, { ...habits, madePerDay: null, lossDoubt: 0.7 }, 0)!
        .variance;
    expect(spread(1)).toBeGreaterThan(spread(0));
    expect(spread(5)).toBeGreaterThan(spread(1));
  });
});

describe('a reading that does not fit', () => {
  const rest = waterOf({ ph: 7.4, totalAlkalinity: 90, calciumHardness: 220, salt: 3000, cyanuricAcid: 40 });
  const weeks = [0, 5, 10, 15, 20].map((day) => read(day, 'ph', 7.5 + 0.02 * (day % 2), 0.12));

  it('is told, for a second dip to bear it out', () => {
    const { misfits, mean, variance } = followPh([...weeks, read(25, 'ph', 6.4, 0.12)], 25, rest, 0.3)!;
    expect(misfits).toMatchObject([{ kind: 'unconfirmed', day: 25, value: 6.4 }]);
    expect(misfits[0]!.expected).toBeGreaterThan(7.3);
    // Until then it may be either.
    expect(mean - 1.645 * Math.sqrt(variance)).toBeLessThan(6.45);
    expect(mean + 1.645 * Math.sqrt(variance)).toBeGreaterThan(misfits[0]!.expected - 0.05);
  });

  it('is told where it only says ‘more than’, and is no surer of that than of what was expected', () => {
    const habits = { madePerDay: 1.5, lossPerDay: 0.5, lossDoubt: 0.3 };
    const days = [0, 1, 2, 3, 4].map((day) => read(day, 'free-chlorine', 3, 0.3));
    const over = { ...read(5, 'free-chlorine', 10, 0.5), bound: 'above' } as const;
    const { misfits, mean, variance } = followChlorine([...days, over], 5, habits, 0)!;
    expect(misfits).toMatchObject([{ kind: 'unconfirmed', day: 5, value: 10, bound: 'above' }]);
    expect(mean - 1.645 * Math.sqrt(variance)).toBeLessThan(4);
    expect(mean + 1.645 * Math.sqrt(variance)).toBeGreaterThan(10);
    const mild = { ...over, value: 2.5 };
    expect(followChlorine([...days, mild], 5, habits, 0)!.misfits).toEqual([]);
  });

  it('is left aside where the next one contradicts it', () => {
    const { misfits, mean } = followPh(
      [...weeks, read(25, 'ph', 6.4, 0.12), read(26, 'ph', 7.5, 0.12)],
      26,
      rest,
      0.3,
    )!;
    expect(misfits).toMatchObject([{ kind: 'misfit', day: 25 }]);
    expect(mean).toBeGreaterThan(7.4);
  });

  it('is believed where the next one agrees', () => {
    const { misfits, mean } = followPh(
      [...weeks, read(25, 'ph', 6.4, 0.12), read(26, 'ph', 6.5, 0.12)],
      26,
      rest,
      0.3,
    )!;
    expect(misfits).toEqual([]);
    expect(mean).toBeLessThan(6.8);
  });
});

describe('pH between readings', () => {
  const rest = waterOf({ ph: 7.4, totalAlkalinity: 90, calciumHardness: 220, salt: 3000, cyanuricAcid: 40 });

  it('goes towards its end with the air', () => {
    const at = (day: number) => followPh([read(0, 'ph', 7.4, 0.01)], day, rest, 0)!.mean;
    expect(at(4)).toBeGreaterThan(7.45);
    expect(at(200)).toBeCloseTo(phWithAir(rest), 1);
  });

  it('moves with a dose as the plan says', () => {
    const millimoles = 0.15;
    const events: PhEvent[] = [
      read(0, 'ph', 7.8, 0.005),
      { kind: 'added', day: 0, molesPerLitre: { alkalinity: -millimoles / 1000 }, doubt: 0 },
    ];
    const after = addReagent({ ...rest, ph: 7.8 }, REAGENTS['hydrochloric-acid'], millimoles).ph;
    expect(followPh(events, 0, rest, 0)!.mean).toBeCloseTo(after, 2);
  });

  it('says less where the readings contradict each other, and does not fail', () => {
    const impossible = { ...rest, totalAlkalinity: 1, cyanuricAcid: 300 };
    const { mean, variance } = followPh([read(0, 'ph', 8.2, 0.1)], 5, impossible, 0)!;
    expect(Number.isFinite(mean)).toBe(true);
    expect(variance).toBeGreaterThan(0.04);
  });
});
