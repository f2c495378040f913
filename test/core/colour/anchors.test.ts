import { describe, expect, it } from 'vitest';
import { cardPairs, pairsWith } from '../../../src/core/colour/anchors.ts';

describe('patches in both photos', () => {
  const sample = (id: string, clipped: number) =>
    ({ id, clipped, xMm: 0, yMm: 0, rgb: [0.5, 0.4, 0.3], scatter: [0, 0, 0], count: 1, rejected: 0 }) as const;
  const known = { at1: [0.1, 0.2, 0.3], nt1: [0.8, 0.8, 0.8] } as const;
  const linear = () => [0.4, 0.5, 0.6] as const;

  it('are those known by their ids and not clipped', () => {
    const seen = [sample('at1', 0.09), sample('at2', 0)];
    expect(pairsWith(seen, known, linear)).toEqual([{ id: 'at1', from: [0.4, 0.5, 0.6], to: [0.1, 0.2, 0.3] }]);
    expect(pairsWith([sample('at1', 0.1)], known, linear)).toEqual([]);
  });

  it('are paired apart for colours and greys', () => {
    const card = { version: 1, printMark: null, variant: 'colour', paper: [], slot: [] } as const;
    const both = { ...card, anchors: [sample('at1', 0)], neutrals: [sample('nt1', 0), sample('at1', 0)] };
    const paired = cardPairs(both, { anchors: { at1: known.at1 }, neutrals: { nt1: known.nt1 } }, linear);
    expect(paired.anchors.map(({ id }) => id)).toEqual(['at1']);
    expect(paired.neutrals.map(({ id }) => id)).toEqual(['nt1']);
  });
});
