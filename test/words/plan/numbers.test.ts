import { describe, expect, it } from 'vitest';
import type { Known } from '../../../src/core/water/plan/spanned.ts';
import { activeNumber, fixed, knownText } from '../../../src/words/plan/numbers.ts';

const known = (value: number, low: number, high: number, more: Partial<Known> = {}): Known => ({
  value,
  low,
  high,
  from: 'measured',
  open: null,
  ...more,
});

describe('what is known of a reading, in words', () => {
  it('never claims a narrower span than was measured', () => {
    expect(knownText('ph', known(7.49, 7.342, 7.611), 'metric')).toBe('7.49 (7.34 to 7.62)');
    expect(knownText('total-alkalinity', known(88, 55.9, 124.2), 'metric')).toBe('88 (55 to 125) mg/L');
    expect(knownText('salt', known(3004, 2909, 3101), 'metric')).toBe('3,000 (2,900 to 3,110) mg/L');
    // 7.3 isn't quite 7.3 in the computer: that is no reason for a step more.
    expect(knownText('free-chlorine', known(1.1 + 2.2, 3 * 1.1, 3 * 1.1 + 0.1), 'metric')).toBe(
      '3.3 (3.3 to 3.4) mg/L',
    );
  });

  it('rounds what was worked out to the nearest, and leaves out a span that doesn’t show', () => {
    const derived = { from: 'derived' } as const;
    expect(knownText('calcium-hardness', known(173, 92.9, 336.4, derived), 'metric')).toBe('173 (93 to 336) mg/L');
    expect(knownText('calcium-hardness', known(173, 172.8, 173.2, derived), 'metric')).toBe('173 mg/L');
  });

  it('gives only the end of a scale that was left', () => {
    expect(knownText('ph', known(6.4, 6.2, 6.4, { open: 'below' }), 'metric')).toBe('6.4 or less');
    expect(knownText('free-chlorine', known(10, 9, 20, { open: 'above' }), 'metric')).toBe('10.0 (9.0 or more) mg/L');
  });

  it('gives active chlorine to two figures and at most a thousandth', () => {
    expect([0.0004, 0.0254, 0.1249, 0.841, 1.985].map(activeNumber)).toEqual(['0.000', '0.025', '0.12', '0.84', '2.0']);
  });

  it('has no zero with a minus', () => {
    expect(fixed(-0.04, 1)).toBe('0.0');
  });
});
