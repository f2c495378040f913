/** What is told and not treated, what it costs, and what the chlorinator makes against what is used. */
import { describe, expect, it } from 'vitest';
import { costText, makesText, seasonText, toldText } from '../../../../src/words/plan/told.ts';
import { kinds, plain, plan, reading, step } from './inputs.ts';

const planOf = (change: Parameters<typeof plain>[0]) => plan(plain(change));
const without: 'total-chlorine'[] = ['total-chlorine'];

describe('told, not treated', () => {
  it('borate has a target where it is used (30 to 50 mg/L as boron: common practice, no source)', () => {
    expect(planOf({}).told).toEqual([]);
    const [low] = planOf({ readings: { boron: reading(20, 2) } }).told;
    // 20 mg/L of boron in 40 m3: 800 g, in boric acid (61.83 g/mol to 10.81) 4.58 kg.
    expect(low).toMatchObject({ code: 'borate', judgement: 'low', boricAcidGrams: expect.closeTo(4576, -1) as number });
    expect(toldText(low!, 'metric')).toContain('4.6 kg of boric acid');
    expect(planOf({ readings: { boron: reading(60, 2) } }).told[0]).toMatchObject({
      judgement: 'high',
      boricAcidGrams: 0,
    });
  });

  it.each(['brown', 'blue-green', 'black'])('%s marks are named, and nothing is dosed for them', (stains) => {
    const made = planOf({ look: { water: 'clear', stains } });
    expect(made.told).toEqual([{ code: `stains-${stains}` }]);
    expect(made.steps).toEqual([]);
    expect(toldText(made.told[0]!, 'metric')).toContain('Not treated here');
  });

  it('phosphate is explained beside green water, and nothing is sold', () => {
    const made = planOf({ look: { water: 'green' }, readings: { 'free-chlorine': reading(1, 0.1) }, without });
    expect(made.told).toEqual([{ code: 'phosphate' }]);
  });
});

describe('cost', () => {
  const acids = [
    { product: 'hydrochloric-acid', strength: 31.45, price: 2 },
    { product: 'sodium-bisulfate', price: 0.5 },
  ];
  const high = { ph: reading(8.1, 0.05) };

  it('adds up the owner’s own prices, and names what has none', () => {
    const shelf = [{ product: 'hydrochloric-acid', strength: 31.45, price: 2 }, { product: 'sodium-hypochlorite' }];
    const made = planOf({ readings: { ...high, 'free-chlorine': reading(1, 0.1) }, without, shelf });
    const litres = step(made, 'lower-ph').amount!.exact / 1000;
    expect(made.cost!.steps).toBeCloseTo(2 * litres, 9);
    expect(made.cost!.unpriced).toEqual(['sodium-hypochlorite']);
    expect(costText(made.cost!)).toContain('without liquid chlorine');
    expect(planOf({ readings: high }).cost).toBeNull();
  });

  it('a season by hand is 120 days of the daily dose', () => {
    const made = planOf({ shelf: [{ product: 'sodium-hypochlorite', strength: 12.5, price: 1.5 }] });
    const { upkeep, cost } = made;
    if (upkeep?.kind !== 'product') throw new Error('no daily dose');
    expect(cost!.season!.amount).toBeCloseTo((120 * 1.5 * upkeep.amount.exact) / 1000, 9);
  });

  it('takes the cheapest that is safe: dry acid where its sulfate does no harm, never beside a cell or plaster', () => {
    const acid = (pool: Record<string, unknown>) =>
      step(planOf({ pool, readings: high, shelf: acids }), 'lower-ph').choice!.product;
    expect(acid({ surface: 'vinyl' })).toBe('sodium-bisulfate');
    expect(acid({ surface: 'plaster' })).toBe('hydrochloric-acid');
    expect(acid({ chlorination: 'chlorinator' })).toBe('hydrochloric-acid');
    expect(kinds(planOf({ readings: high, shelf: acids }))).toEqual(['lower-ph']);
  });
});

describe('the chlorinator', () => {
  const salted = { chlorination: 'chlorinator', pump: { litresPerHour: 6000, hoursPerDay: 10 } };
  const kept = (change: object) => {
    const { upkeep } = planOf({ pool: { ...salted, ...change }, readings: { salt: reading(3200, 100) }, without });
    if (upkeep?.kind !== 'chlorinator') throw new Error('no cell');
    return upkeep;
  };

  it('makes what its setting, hours and output say: 20 g/h at 50 % for 10 h in 40 m3 are 2.5 mg/L', () => {
    const upkeep = kept({ cell: { gramsPerHour: 20, setting: 0.5 } });
    expect(upkeep.makes).toBeCloseTo(2.5, 9);
    expect(makesText(upkeep)).toContain('2.5 mg/L in 10 hours, against 2.5 used: about enough');
    expect(makesText(kept({ cell: { gramsPerHour: 20, setting: 0.1 } }))).toContain('too little');
  });

  it('is set higher as the water warms, and less under a cover', () => {
    const { seasons } = kept({ cell: { gramsPerHour: 20 } });
    const percents = seasons.map(({ percent }) => percent);
    expect(percents).toEqual([...percents].sort((a, b) => a - b));
    expect(percents[0]!).toBeLessThan(percents.at(-1)!);
    expect(seasonText(kept({ cell: { gramsPerHour: 20 } }), 'us')).toContain('°F');
    expect(kept({ cell: { gramsPerHour: 20 }, cover: 'mostly' }).timer.percent).toBeLessThan(
      kept({ cell: { gramsPerHour: 20 } }).timer.percent,
    );
  });
});
