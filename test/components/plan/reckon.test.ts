import { describe, expect, it } from 'vitest';
import { indexOf } from '../../../src/components/plan/reckon.ts';

describe('the index on the plan page', () => {
  it('says what is still needed', () => {
    expect(indexOf({ ph: { value: 7.4 } })).toEqual({ needs: ['total-alkalinity', 'hardness'] });
  });

  it('spans what the intervals allow, with calcium hardness before total hardness', () => {
    const found = indexOf({
      ph: { value: 7.5, low: 7.3, high: 7.7 },
      'total-alkalinity': { value: 90, low: 70, high: 110 },
      'total-hardness': { value: 900 },
      'calcium-hardness': { value: 250 },
    });
    if ('needs' in found) throw new Error('nothing is needed');
    expect(found.low).toBeLessThan(found.index);
    expect(found.high).toBeGreaterThan(found.index);
    const total = indexOf({
      ph: { value: 7.5 },
      'total-alkalinity': { value: 90 },
      'total-hardness': { value: 900 },
    });
    if ('needs' in total) throw new Error('nothing is needed');
    expect(total.index).toBeGreaterThan(found.index);
  });
});
