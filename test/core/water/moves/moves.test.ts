import { describe, expect, it } from 'vitest';
import { reagentToReading } from '../../../../src/core/water/demand.ts';
import { phWithAir, speciate } from '../../../../src/core/water/equilibrium.ts';
import { WaterError } from '../../../../src/core/water/errors.ts';
import { add, addLiquidChlorine, addReagent } from '../../../../src/core/water/moves/add.ts';
import { aerationOf } from '../../../../src/core/water/moves/aerate.ts';
import {
  addThiosulfate,
  electrolyse,
  thiosulfateFor,
  useUpChlorine,
} from '../../../../src/core/water/moves/chlorine.ts';
import { replaceWater, shareToReplace } from '../../../../src/core/water/moves/dilute.ts';
import { REAGENTS, SODIUM_HYDROXIDE, type ReagentId } from '../../../../src/core/water/moves/reagents.ts';
import { waterOf, type Water } from '../../../../src/core/water/water.ts';
import { readTable } from '../../../reference/read-table.ts';

const fact = (id: string) => Number(readTable('dose-facts.csv').find((row) => row['id'] === id)!['value']);
const water = waterOf({
  ph: 7.5,
  temperatureC: 26,
  totalAlkalinity: 90,
  calciumHardness: 220,
  salt: 1500,
  cyanuricAcid: 30,
  freeChlorine: 3,
});
/** g per m³ is mg/L. */
const grams = (reagent: ReagentId, gramsPerCubicMetre: number) => gramsPerCubicMetre / REAGENTS[reagent].gramsPerMole;
const gain = (after: Water, reading: keyof Water, before = water) => after[reading] - before[reading];

describe('amounts, against arithmetic from atomic weights (test/reference/dose-facts.csv)', () => {
  it.each([
    ['sodium-bicarbonate', 'totalAlkalinity', 10, 'D016'],
    ['soda-ash', 'totalAlkalinity', 10, 'D018'],
    ['sodium-bisulfate', 'totalAlkalinity', -10, 'D028'],
    ['calcium-chloride', 'calciumHardness', 10, 'D033'],
    ['calcium-chloride-dihydrate', 'calciumHardness', 10, 'D037'],
    ['salt', 'salt', 1000, 'D040'],
    ['cyanuric-acid', 'cyanuricAcid', 10, 'D042'],
    ['boric-acid', 'boron', 1, 'D094'],
    ['borax', 'boron', 1, 'D095'],
    ['trichlor', 'freeChlorine', 1, 'D046'],
    ['dichlor', 'freeChlorine', 1, 'D049'],
    ['dichlor-dihydrate', 'freeChlorine', 1, 'D052'],
  ] as const)('%s moves %s by %d with the grams of %s', (reagent, reading, by, id) => {
    expect(gain(add(water, reagent, grams(reagent, fact(id))), reading) / by).toBeCloseTo(1, 3);
    const needed = reagentToReading(water, reagent, reading as 'salt', water[reading] + by);
    expect((needed * REAGENTS[reagent].gramsPerMole) / fact(id)).toBeCloseTo(1, 3);
  });

  it('sodium hydroxide (D020)', () => {
    const after = addReagent(water, SODIUM_HYDROXIDE, fact('D020') / SODIUM_HYDROXIDE.gramsPerMole);
    expect(gain(after, 'totalAlkalinity')).toBeCloseTo(10, 3);
  });

  it('trichlor and dichlor bring stabilizer (D075, D076), calcium hypochlorite hardness (D077), borax alkalinity (D096)', () => {
    const chlorine = 1 / 70.9;
    expect(gain(add(water, 'trichlor', chlorine / 3), 'cyanuricAcid')).toBeCloseTo(fact('D075'), 4);
    expect(gain(add(water, 'dichlor', chlorine / 2), 'cyanuricAcid')).toBeCloseTo(fact('D076'), 4);
    expect(gain(add(water, 'calcium-hypochlorite', chlorine / 2), 'calciumHardness')).toBeCloseTo(fact('D077'), 4);
    expect(gain(add(water, 'borax', 1 / 10.81 / 4), 'totalAlkalinity')).toBeCloseTo(fact('D096'), 3);
  });

  it.each([
    ['trichlor', 3, -fact('D079')],
    ['dichlor', 2, -fact('D080')],
    ['dichlor-dihydrate', 2, -fact('D080')],
    ['sodium-hypochlorite', 1, fact('D081')],
    ['calcium-hypochlorite', 2, fact('D081')],
  ] as const)('%s, added and used up: alkalinity (D079-D081)', (reagent, chlorines, alkalinity) => {
    const after = useUpChlorine(add(water, reagent, 1 / 70.9 / chlorines), 1);
    expect(after.freeChlorine).toBeCloseTo(water.freeChlorine, 9);
    expect(gain(after, 'totalAlkalinity')).toBeCloseTo(alkalinity, 4);
  });

  it('sodium hypochlorite leaves two salts for each chlorine (D078)', () => {
    const after = useUpChlorine(add(water, 'sodium-hypochlorite', 1 / 70.9), 1);
    expect(gain(after, 'salt')).toBeCloseTo(fact('D078'), 4);
  });

  it.each([
    ['to-sulfate', 'D082'],
    ['to-sulfur', 'D084'],
  ] as const)('thiosulfate %s (%s)', (reaction, id) => {
    const dose = thiosulfateFor(1, reaction);
    expect((dose * 248.17) / fact(id)).toBeCloseTo(1, 4);
    expect(gain(addThiosulfate(water, dose, reaction), 'freeChlorine')).toBeCloseTo(-1, 9);
  });

  it('dilution (D108-D110)', () => {
    const strong = { ...water, cyanuricAcid: 100, calciumHardness: 600, totalAlkalinity: 120 };
    const fill = waterOf({ ph: 7.8, totalAlkalinity: 60, calciumHardness: 100 });
    expect(100 * shareToReplace(strong, fill, 'cyanuricAcid', 50)).toBeCloseTo(fact('D108'), 9);
    expect(100 * shareToReplace(strong, fill, 'calciumHardness', 400)).toBeCloseTo(fact('D110'), 9);
    expect(replaceWater(strong, fill, 0.5).cyanuricAcid).toBeCloseTo(50, 9);
  });
});

describe('what each product does to the pH', () => {
  const ph = (after: Water) => after.ph - water.ph;

  it('acids lower it, alkalis raise it, salt and calcium hardly touch it', () => {
    for (const acid of ['hydrochloric-acid', 'sodium-bisulfate', 'cyanuric-acid', 'trichlor'] as const) {
      expect(ph(add(water, acid, 0.1))).toBeLessThan(-0.02);
    }
    for (const alkali of ['soda-ash', 'borax', 'sodium-hypochlorite', 'calcium-hypochlorite'] as const) {
      expect(ph(add(water, alkali, 0.1))).toBeGreaterThan(0.05);
    }
    for (const neutral of ['salt', 'calcium-chloride'] as const) {
      expect(Math.abs(ph(add(water, neutral, 1)))).toBeLessThan(0.03);
    }
  });

  it('stabilizer comes out of the carbonate alkalinity, not out of the total', () => {
    const after = add(water, 'cyanuric-acid', 0.3);
    expect(after.totalAlkalinity).toBeCloseTo(water.totalAlkalinity, 9);
    expect(speciate(after).carbonateAlkalinity).toBeLessThan(speciate(water).carbonateAlkalinity);
  });

  it('hypochlorite raises it; once used up, the pH is back where it was', () => {
    const after = add(water, 'sodium-hypochlorite', 5 / 70.9);
    expect(ph(after)).toBeGreaterThan(0.1);
    expect(Math.abs(ph(useUpChlorine(after, 5)))).toBeLessThan(0.002);
  });

  it('the lye in liquid chlorine stays', () => {
    const dose = 5 / 70.9;
    const plain = useUpChlorine(addLiquidChlorine(water, dose, 0), 5);
    const usual = useUpChlorine(addLiquidChlorine(water, dose), 5);
    expect(plain).toEqual(useUpChlorine(add(water, 'sodium-hypochlorite', dose), 5));
    expect(usual.totalAlkalinity - plain.totalAlkalinity).toBeCloseTo(0.06 * dose * 50.043, 6);
    expect(usual.ph).toBeGreaterThan(plain.ph);
  });

  it('a chlorinator changes nothing over making chlorine and using it up, but what is in between', () => {
    const made = electrolyse(water, 4);
    expect(ph(made)).toBeGreaterThan(0.05);
    expect(made.salt).toBe(water.salt);
    const back = useUpChlorine(made, 4);
    for (const reading of Object.keys(water) as (keyof Water)[]) expect(back[reading]).toBeCloseTo(water[reading], 6);
  });

  it('trichlor goes on lowering it as the chlorine is used', () => {
    const after = add(water, 'trichlor', 5 / 70.9 / 3);
    expect(useUpChlorine(after, 5).ph).toBeLessThan(after.ph);
  });
});

describe('carbon dioxide leaving', () => {
  it.each([
    ['usual', water],
    ['soft', { ...water, totalAlkalinity: 30, cyanuricAcid: 0 }],
    ['hard, with much stabilizer', { ...water, totalAlkalinity: 220, calciumHardness: 500, cyanuricAcid: 90 }],
    ['warm and borated', { ...water, temperatureC: 36, boron: 50 }],
  ])('goes its share of the way to balance with the air: %s water', (_, one) => {
    const aerated = aerationOf(one);
    const carbonDioxideAt = (ph: number) => speciate({ ...one, ph }).carbonDioxide;
    const inTheEnd = phWithAir(one);
    for (const ph of [6.4, 7, 7.31, 7.8, 8.1]) {
      expect(Math.abs(aerated(ph, 1) - inTheEnd)).toBeLessThan(2e-4);
      for (const share of [0, 0.02, 0.3, 0.9]) {
        const left = (1 - share) * carbonDioxideAt(ph) + share * carbonDioxideAt(inTheEnd);
        expect(carbonDioxideAt(aerated(ph, share)) / left).toBeCloseTo(1, 2.9);
      }
    }
  });

  it('is refused where the readings contradict each other', () => {
    const impossible = { ...water, totalAlkalinity: 1, cyanuricAcid: 300 };
    expect(() => aerationOf(impossible)(8.2, 0.1)).toThrow(new WaterError('contradictory'));
  });
});

describe('amounts that make no sense', () => {
  it.each([-1, Number.NaN, Infinity])('%d is refused', (amount) => {
    const refused = new WaterError('bad-amount');
    expect(() => add(water, 'salt', amount)).toThrow(refused);
    expect(() => addLiquidChlorine(water, amount)).toThrow(refused);
    expect(() => electrolyse(water, amount)).toThrow(refused);
    expect(() => addThiosulfate(water, amount)).toThrow(refused);
    expect(() => replaceWater(water, water, amount)).toThrow(refused);
    expect(() => aerationOf(water)(7.5, amount)).toThrow(refused);
    expect(() => thiosulfateFor(amount)).toThrow(refused);
  });

  it('more than all of it', () => {
    const refused = new WaterError('bad-amount');
    expect(() => aerationOf(water)(7.5, 1.001)).toThrow(refused);
    expect(() => replaceWater(water, water, 1.001)).toThrow(refused);
  });

  it('taking out more chlorine than there is', () => {
    expect(() => useUpChlorine(water, 3.1)).toThrow(new WaterError('not-that-much-there'));
    expect(() => addThiosulfate(water, thiosulfateFor(3.1))).toThrow(new WaterError('not-that-much-there'));
    expect(useUpChlorine(water, 3).freeChlorine).toBe(0);
    expect(addThiosulfate(water, thiosulfateFor(3)).freeChlorine).toBeCloseTo(0, 9);
  });

  it('dilution with water that has as much of it', () => {
    const hard = { ...water, calciumHardness: 400 };
    expect(() => shareToReplace(water, hard, 'calciumHardness', 200)).toThrow(new WaterError('out-of-reach'));
    expect(() => shareToReplace(water, water, 'calciumHardness', 200)).toThrow(new WaterError('out-of-reach'));
    expect(shareToReplace(water, hard, 'calciumHardness', 220)).toBe(0);
  });
});
