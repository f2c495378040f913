import { describe, expect, it } from 'vitest';
import { canonical } from '../../../src/core/log/compare.ts';

describe('canonical', () => {
  it('is one text for one thing, in whatever order its keys were written', () => {
    expect(canonical({ b: { d: 1, c: [2, { f: 3, e: null }] }, a: 'x' })).toBe(
      canonical({ a: 'x', b: { c: [2, { e: null, f: 3 }], d: 1 } }),
    );
  });

  it('tells apart what differs, the order of a list included', () => {
    expect(canonical([1, 2])).not.toBe(canonical([2, 1]));
    expect(canonical({ a: 1 })).not.toBe(canonical({ a: '1' }));
    expect(JSON.parse(canonical({ a: [null, { b: 1 }] }))).toEqual({ a: [null, { b: 1 }] });
  });
});
