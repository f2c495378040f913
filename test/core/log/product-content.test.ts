import { describe, expect, it } from 'vitest';
import { agentOf, productContent, singleAmount } from '../../../src/core/log/product-content.ts';
import { measured } from '../water/measured.ts';
import { measureLiquid, measureSolid } from '../../../src/core/water/measure.ts';
import { PRODUCT_IDS, type ProductId } from '../../../src/core/water/products.ts';
import { readTable } from '../../reference/read-table.ts';

const facts = new Map(readTable('dose-facts.csv').map((row) => [row['id'], Number(row['value'])]));

describe('productContent, against the published dose facts', () => {
  it('has the acid of a litre of 31.45 % muriatic acid (D023)', () => {
    // The fact takes the density of 20 degrees Baume, the products a handbook table: a quarter of a per cent apart.
    const { acidMoles, chlorineGrams } = productContent('hydrochloric-acid', 31.45, 1, 'L');
    expect(acidMoles! / facts.get('D023')!).toBeCloseTo(1, 2);
    expect(chlorineGrams).toBeNull();
  });

  it.each([
    ['sodium-hypochlorite', 12.5, 'D065'],
    ['sodium-hypochlorite', 10, 'D068'],
  ] as const)('has the chlorine of a litre of %s at %d trade per cent (%s)', (id, strength, fact) => {
    expect(productContent(id, strength, 1, 'L').chlorineGrams).toBeCloseTo(facts.get(fact)!, 6);
  });

  it.each([
    ['calcium-hypochlorite', 65, 'D056'],
    ['calcium-hypochlorite', 73, 'D062'],
    ['dichlor', 64.472, 'D049'],
  ] as const)(
    'has a gram of chlorine in what lifts a cubic metre by 1 mg/L: %s at %d %% (%s)',
    (id, strength, fact) => {
      // The library takes no more than the pure substance holds, to three figures.
      const percent = Math.min(strength, id === 'dichlor' ? 64.4 : 99);
      expect(productContent(id, percent, facts.get(fact)!, 'g').chlorineGrams).toBeCloseTo(percent / strength, 3);
    },
  );

  it('knows nothing of a liquid by weight, a solid by volume, or a strength that can’t be', () => {
    const nothing = { chlorineGrams: null, acidMoles: null };
    expect(productContent('sodium-hypochlorite', 12.5, 1, 'kg')).toMatchObject(nothing);
    expect(productContent('dichlor', 56, 1, 'L')).toMatchObject(nothing);
    expect(productContent('dichlor', 90, 1, 'kg')).toMatchObject(nothing);
    expect(productContent('hydrochloric-acid', -1, 1, 'L')).toMatchObject(nothing);
  });

  it('is the same in every unit', () => {
    const litre = productContent('sodium-hypochlorite', null, 3.785411784, 'L').chlorineGrams!;
    expect(productContent('sodium-hypochlorite', null, 1, 'gal').chlorineGrams).toBeCloseTo(litre, 9);
    expect(productContent('sodium-hypochlorite', null, 128, 'fl oz').chlorineGrams).toBeCloseTo(litre, 9);
  });

  it('has an agent for every product, and chlorine or acid in just those that are bought for it', () => {
    const withChlorine = PRODUCT_IDS.filter((id) => content(id).chlorineGrams !== null);
    const withAcid = PRODUCT_IDS.filter((id) => content(id).acidMoles !== null);
    expect(withChlorine).toEqual(PRODUCT_IDS.filter((id) => agentOf(id) === 'chlorine'));
    expect(withAcid).toEqual(['hydrochloric-acid', 'sodium-bisulfate']);
    for (const id of withChlorine) expect(content(id).chlorineGrams, id).toBeGreaterThan(0);
  });
});

function content(id: ProductId): ReturnType<typeof productContent> {
  const liquid = productContent(id, null, 100, 'mL');
  return liquid.acidMoles === null && liquid.chlorineGrams === null ? productContent(id, null, 100, 'g') : liquid;
}

describe('singleAmount', () => {
  it.each([
    [measureLiquid(350, 'metric'), { amount: 350, unit: 'mL' }],
    [measureSolid(3200, 'metric'), { amount: 3.2, unit: 'kg' }],
    [[], null],
  ] as const)('takes %j as one amount', (measure, single) => {
    expect(singleAmount(measure)).toEqual(single);
  });

  it('adds up pounds and ounces without losing any', () => {
    const measure = measureSolid(1480, 'us');
    expect(measure).toHaveLength(2);
    const { amount, unit } = singleAmount(measure)!;
    expect(unit).toBe('oz');
    expect((amount * 453.59237) / 16).toBeCloseTo(measured(measure), 6);
  });
});
