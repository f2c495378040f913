import { describe, expect, it } from 'vitest';
import { caution } from '../../../src/words/plan/cautions.ts';
import { add } from '../../../src/core/water/moves/add.ts';
import { howText, productName } from '../../../src/words/plan/names.ts';
import { mmolPerUnit, moveOf, product, PRODUCT_IDS, type Purpose } from '../../../src/core/water/products.ts';
import { convert } from '../../../src/core/water/units.ts';
import { waterOf, type Water } from '../../../src/core/water/water.ts';
import { readTable } from '../../reference/read-table.ts';
import type { ProductId } from '../../../src/core/water/products.ts';
import { type Reagent, type ReagentId, REAGENTS } from '../../../src/core/water/moves/reagents.ts';

const fact = (id: string) => Number(readTable('dose-facts.csv').find((row) => row['id'] === id)!['value']);
const CUBIC_METRE = 1000;
const TEN_THOUSAND_GALLONS = convert('volume', 10_000, 'gal', 'L');
const water = waterOf({ ph: 7.5, totalAlkalinity: 100, calciumHardness: 200, salt: 1000 });

/** How far a reading goes when so much of a product goes into so much water. */
function moved(id: ProductId, strength: number, amount: number, litres: number, reading: keyof Water): number {
  const mmol = (amount * mmolPerUnit(id, strength)) / litres;
  const reagent = id === 'household-bleach' ? 'sodium-hypochlorite' : (id as ReagentId);
  return add(water, reagent, mmol)[reading] - water[reading];
}

const mL = (flOz: number) => convert('volume', flOz, 'fl oz', 'mL');
const oz = (ounces: number) => convert('mass', ounces, 'oz', 'g');
const lb = (pounds: number) => convert('mass', pounds, 'lb', 'g');

/** [fact, product, strength, its unit to mL or g, litres, reading, how far it must go, relative precision] */
const DOSES: [string, ProductId, number, (x: number) => number, number, keyof Water, number, number?][] = [
  ['D016', 'sodium-bicarbonate', 100, (g) => g, CUBIC_METRE, 'totalAlkalinity', 10],
  ['D017', 'sodium-bicarbonate', 100, lb, TEN_THOUSAND_GALLONS, 'totalAlkalinity', 10],
  ['D018', 'soda-ash', 100, (g) => g, CUBIC_METRE, 'totalAlkalinity', 10],
  ['D019', 'soda-ash', 100, lb, TEN_THOUSAND_GALLONS, 'totalAlkalinity', 10],
  // These four rest on densities the table marks as assumed; ours are the handbook's, up to half a per cent off.
  ['D024', 'hydrochloric-acid', 31.45, (ml) => ml, CUBIC_METRE, 'totalAlkalinity', -10, 0.005],
  ['D025', 'hydrochloric-acid', 31.45, mL, TEN_THOUSAND_GALLONS, 'totalAlkalinity', -10, 0.005],
  ['D026', 'hydrochloric-acid', 14.5, mL, TEN_THOUSAND_GALLONS, 'totalAlkalinity', -10, 0.005],
  ['D027', 'hydrochloric-acid', 33, (ml) => ml, CUBIC_METRE, 'totalAlkalinity', -10, 0.005],
  ['D028', 'sodium-bisulfate', 100, (g) => g, CUBIC_METRE, 'totalAlkalinity', -10],
  ['D029', 'sodium-bisulfate', 100, lb, TEN_THOUSAND_GALLONS, 'totalAlkalinity', -10],
  ['D030', 'sodium-bisulfate', 93.2, (g) => g, CUBIC_METRE, 'totalAlkalinity', -10],
  ['D031', 'sodium-bisulfate', 93.2, lb, TEN_THOUSAND_GALLONS, 'totalAlkalinity', -10],
  ['D033', 'calcium-chloride', 100, (g) => g, CUBIC_METRE, 'calciumHardness', 10],
  ['D034', 'calcium-chloride', 100, lb, TEN_THOUSAND_GALLONS, 'calciumHardness', 10],
  ['D035', 'calcium-chloride', 77, (g) => g, CUBIC_METRE, 'calciumHardness', 10],
  ['D036', 'calcium-chloride', 77, lb, TEN_THOUSAND_GALLONS, 'calciumHardness', 10],
  ['D037', 'calcium-chloride', 75.491, (g) => g, CUBIC_METRE, 'calciumHardness', 10],
  ['D040', 'salt', 100, (g) => g, CUBIC_METRE, 'salt', 1000],
  ['D041', 'salt', 100, lb, TEN_THOUSAND_GALLONS, 'salt', 1000],
  ['D042', 'cyanuric-acid', 100, (g) => g, CUBIC_METRE, 'cyanuricAcid', 10],
  ['D043', 'cyanuric-acid', 100, lb, TEN_THOUSAND_GALLONS, 'cyanuricAcid', 10],
  ['D056', 'calcium-hypochlorite', 65, (g) => g, CUBIC_METRE, 'freeChlorine', 1],
  ['D057', 'calcium-hypochlorite', 65, oz, TEN_THOUSAND_GALLONS, 'freeChlorine', 1],
  ['D059', 'calcium-hypochlorite', 68, (g) => g, CUBIC_METRE, 'freeChlorine', 1],
  ['D062', 'calcium-hypochlorite', 73, (g) => g, CUBIC_METRE, 'freeChlorine', 1],
  ['D066', 'sodium-hypochlorite', 12.5, (ml) => ml, CUBIC_METRE, 'freeChlorine', 1],
  ['D067', 'sodium-hypochlorite', 12.5, mL, TEN_THOUSAND_GALLONS, 'freeChlorine', 1],
  ['D069', 'sodium-hypochlorite', 10, (ml) => ml, CUBIC_METRE, 'freeChlorine', 1],
  ['D070', 'sodium-hypochlorite', 10, mL, TEN_THOUSAND_GALLONS, 'freeChlorine', 1],
  ['D074', 'household-bleach', 6, mL, TEN_THOUSAND_GALLONS, 'freeChlorine', 1],
  ['D095', 'borax', 100, (g) => g, CUBIC_METRE, 'boron', 1],
];

describe('the products against the dose facts', () => {
  it.each(DOSES)('%s: %s at %d %', (id, name, strength, toAmount, litres, reading, wanted, precision = 2e-4) => {
    const went = moved(name, strength, toAmount(fact(id)), litres, reading);
    expect(Math.abs(went / wanted - 1)).toBeLessThan(precision);
  });

  it('pure chlorine products hold what their formula says (D045, D048, D054)', () => {
    expect(product('trichlor').maxStrength).toBeLessThanOrEqual(fact('D045'));
    expect(product('dichlor').maxStrength).toBeLessThanOrEqual(fact('D048'));
    expect(product('calcium-hypochlorite').maxStrength).toBeLessThanOrEqual(fact('D054'));
  });

  it('what comes along: stabilizer and calcium (D075, D076, D077), borax its alkalinity (D096)', () => {
    expect(moved('trichlor', 90, 1, 100, 'cyanuricAcid') / moved('trichlor', 90, 1, 100, 'freeChlorine')).toBeCloseTo(
      fact('D075'),
      4,
    );
    expect(moved('dichlor', 56, 1, 100, 'cyanuricAcid') / moved('dichlor', 56, 1, 100, 'freeChlorine')).toBeCloseTo(
      fact('D076'),
      4,
    );
    const lime = moved('calcium-hypochlorite', 65, 1, 100, 'calciumHardness');
    expect(lime / moved('calcium-hypochlorite', 65, 1, 100, 'freeChlorine')).toBeCloseTo(fact('D077'), 4);
    expect(moved('borax', 100, 10, 100, 'totalAlkalinity') / moved('borax', 100, 10, 100, 'boron')).toBeCloseTo(
      fact('D096'),
      3,
    );
  });

  it('thiosulfate by the reaction that takes most chlorine (D082)', () => {
    expect(fact('D082') * mmolPerUnit('sodium-thiosulfate', 100) * 4 * 70.9).toBeCloseTo(1000, 0);
  });
});

const productsFor = (purpose: Purpose) => PRODUCT_IDS.filter((id) => product(id).purpose === purpose);

describe('the shelf', () => {
  it.each(PRODUCT_IDS)('%s has strengths that work, and cautions', (id) => {
    const { strengths, maxStrength, cautions, form } = product(id);
    expect(productName(id).length).toBeGreaterThan(4);
    for (const strength of [...strengths, maxStrength]) expect(mmolPerUnit(id, strength)).toBeGreaterThan(0);
    expect(Math.max(...strengths)).toBeLessThanOrEqual(maxStrength);
    for (const code of cautions) expect(caution(code).text.length).toBeGreaterThan(10);
    expect(['liquid', 'solid']).toContain(form);
    expect(moveOf(id)).toBeTruthy();
  });

  // What an owner must read before opening the container (Maryland Department of Health, EPA 550-F-01-003).
  it('carries the cautions that matter most', () => {
    for (const acid of productsFor('lower-ph')) {
      expect(product(acid).cautions).toEqual(
        expect.arrayContaining(['into-water', 'acid-and-chlorine', 'protection', 'open-outdoors']),
      );
    }
    for (const chlorine of productsFor('raise-chlorine')) {
      expect(product(chlorine).cautions).toEqual(expect.arrayContaining(['acid-and-chlorine', 'never-mix']));
      if (product(chlorine).form === 'solid') {
        expect(product(chlorine).cautions).toEqual(expect.arrayContaining(['keep-dry', 'stabilised-and-hypochlorite']));
      }
    }
    expect(product('calcium-chloride').cautions).toContain('gives-heat');
  });
});

describe('how strong a label says it is', () => {
  const MOLAR = { acid: 36.458, hypochlorite: 74.44, chlorine: 70.9 };

  it.each(PRODUCT_IDS)('%s: the basis is what the amount goes by', (id) => {
    const { basis, strengths, form } = product(id);
    const [strength] = strengths;
    const gramsIn100 = mmolPerUnit(id, strength) / 10;
    const move = moveOf(id);
    const { chlorine = 0 }: Reagent['brings'] =
      move === 'thiosulfate' ? {} : REAGENTS[move === 'liquid-chlorine' ? 'sodium-hypochlorite' : move].brings;
    switch (basis) {
      case 'trade-percent':
        return expect(gramsIn100 * MOLAR.chlorine).toBeCloseTo(strength, 9);
      case 'available-chlorine':
        return expect(gramsIn100 * chlorine * MOLAR.chlorine).toBeCloseTo(strength, 9);
      case 'hypochlorite-by-mass':
        // 100 mL of bleach weigh 5 to 15 % more than 100 g of water.
        expect(gramsIn100 * MOLAR.hypochlorite).toBeGreaterThan(1.05 * strength);
        return expect(gramsIn100 * MOLAR.hypochlorite).toBeLessThan(1.15 * strength);
      default:
        expect(basis).toBe('by-mass');
        expect(chlorine).toBe(0);
        expect(form === 'liquid').toBe(id === 'hydrochloric-acid');
        if (form === 'liquid') return expect(gramsIn100 * MOLAR.acid).toBeGreaterThan(1.1 * strength);
        if (move !== 'thiosulfate' && move !== 'liquid-chlorine') {
          expect(gramsIn100 * REAGENTS[move].gramsPerMole).toBeCloseTo(strength, 9);
        }
    }
  });
});

describe('how it goes in', () => {
  it.each(PRODUCT_IDS)('%s: in words, poured if it is liquid', (id) => {
    const { how, form } = product(id);
    expect(howText(how)).toMatch(/\w+ \w+/);
    expect(how.startsWith('pour-')).toBe(form === 'liquid');
  });

  it('what gives heat in small portions, what dissolves slowly in a feeder or a sock', () => {
    for (const id of PRODUCT_IDS) {
      const { how, cautions } = product(id);
      expect(how === 'dissolve-small-portions-in-cold-water', id).toBe(cautions.includes('gives-heat'));
      if (id === 'trichlor') expect(how).toBe('in-a-floating-feeder');
      if (id === 'cyanuric-acid') expect(how).toBe('sock-at-the-return');
    }
  });
});

describe('what an owner is warned of', () => {
  it('chlorine that brings stabilizer says so', () => {
    for (const id of PRODUCT_IDS) {
      const brings = id === 'trichlor' || id === 'dichlor';
      expect(product(id).cautions.includes('stabilised-adds'), id).toBe(brings);
    }
    expect(product('cyanuric-acid').cautions).toContain('stabilizer-stays');
  });

  // Acids and chlorine burn skin and eyes (GHS: H314, H318), and a poison centre asks for both.
  it('acids and chlorine: keep people away, and know whom to call', () => {
    for (const id of [...productsFor('lower-ph'), ...productsFor('raise-chlorine')]) {
      expect(product(id).cautions, id).toEqual(
        expect.arrayContaining([
          'protection',
          'nobody-in-the-water',
          'children-away',
          'poison-help',
          'never-mix',
          'open-outdoors',
        ]),
      );
    }
  });

  it('nothing is mixed in the shed, and nobody swims in what is going in', () => {
    for (const id of PRODUCT_IDS) {
      const { cautions } = product(id);
      expect(cautions.includes('never-mix'), id).toBe(id !== 'salt');
      expect(cautions.includes('nobody-in-the-water'), id).toBe(id !== 'cyanuric-acid');
    }
  });

  it('solids into water, never water onto them, where that spits: acid, dry chlorine, soda ash, calcium chloride', () => {
    for (const id of PRODUCT_IDS) {
      const { purpose, form, cautions } = product(id);
      const spits = purpose === 'lower-ph' || (purpose === 'raise-chlorine' && form === 'solid');
      expect(cautions.includes('into-water'), id).toBe(spits || id === 'soda-ash' || id === 'calcium-chloride');
    }
    expect(product('soda-ash').cautions).toContain('caustic');
  });

  it('granules bleach or stain a liner they lie on; salt attacks metal', () => {
    for (const id of ['calcium-hypochlorite', 'dichlor', 'cyanuric-acid'] as const) {
      expect(product(id).cautions).toContain('keep-off-liner');
    }
    // Dissolved or scattered: its label alone decides.
    expect(product('calcium-hypochlorite').how).toBe('as-the-label-says');
    expect(product('sodium-bisulfate').cautions).toContain('sulfate-attacks');
    expect(product('salt').cautions).toEqual(expect.arrayContaining(['salt-attacks', 'electricity']));
  });
});
