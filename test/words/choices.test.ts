import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { choiceSchema } from '../../src/core/log/choices.ts';
import { choiceName, choiceText } from '../../src/words/choices.ts';

const FORM = ['PlanDesk', 'MoreFields'].map((name) =>
  readFileSync(new URL(`../../src/components/plan/${name}.astro`, import.meta.url), 'utf8'),
);

describe('the fields of the plan’s form in words', () => {
  // A field that is kept travels in the logbook's file, and is named where that file is looked into.
  const kept = FORM.join('\n')
    .split('<')
    .filter((tag) => /\sdata-keep[\s/>]/.test(tag))
    .flatMap((tag) => /data-at="([^"]+)"/.exec(tag)?.[1] ?? []);
  const computed = [
    'pool.climate.jun.airC',
    'pool.climate.jun.rainMm',
    'pool.filter.cleanBar',
    'pool.heat.kilowatts',
    'pool.heat.targetC',
    'fill.ph',
    'fill.salt',
  ];

  it('are all found', () => {
    expect(kept).toContain('pool.cover');
    expect(kept).toContain('pool.pump.hoursPerDay');
  });

  it.each([...kept, ...computed])('have a name for %s', (at) => {
    const choice = choiceSchema.parse({ key: `plan.${at}`, value: 1 });
    expect(choiceName(choice)).not.toContain('plan.');
  });

  it('keep the capital of pH', () => {
    expect(choiceName(choiceSchema.parse({ key: 'plan.fill.ph', value: 7.4 }))).toBe('tap water’s pH');
  });

  it('speak of warmth in the visitor’s unit', () => {
    const warm = choiceSchema.parse({ key: 'plan.pool.heat.targetC', value: 30 });
    expect(choiceText(warm, 'us')).toContain('86');
  });

  it('name the products of which more is known', () => {
    const bottles = choiceSchema.parse({ key: 'plan.bottles', value: { 'sodium-hypochlorite': { price: '2' } } });
    expect(choiceText(bottles, 'metric')).toBe('sodium hypochlorite');
  });
});
