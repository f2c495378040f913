import { describe, expect, it } from 'vitest';
import { nextRow } from '../../../src/components/teach/next-row.ts';
import { type Row, rowOf } from '../../../src/components/teach/rows.ts';
import type { BlockFound } from '../../../src/vision/messages.ts';

const row = (...places: (readonly [number, number])[]): Row =>
  rowOf(places.map((centre) => ({ centre }) as BlockFound));

describe('where the next row of a chart may lie', () => {
  it('is one step of its blocks below a row alone, whichever way the photo is turned', () => {
    expect(nextRow([row([100, 50], [140, 50], [180, 50])])).toEqual({ from: [100, 90], to: [180, 90] });
    expect(nextRow([row([100, 180], [100, 140], [100, 100])])).toEqual({ from: [140, 180], to: [140, 100] });
  });

  it('is as far below the second as that lies below the first', () => {
    const rows = [row([100, 50], [180, 52]), row([102, 110], [182, 112])];
    expect(nextRow(rows)).toEqual({ from: [104, 170], to: [184, 172] });
  });

  it('is anyone’s guess without a row of two blocks', () => {
    expect(nextRow([])).toBeNull();
    expect(nextRow([row([100, 50])])).toBeNull();
  });
});
