/** The colour map on real photos of a 24-patch chart: real-chart-photos.csv and chart-24-lab.csv, see SOURCES.md. */
import { describe, expect, it } from 'vitest';
import { readTable } from '../../reference/read-table.ts';
import { compareOn } from './compare.ts';

const lines = compareOn(readTable('real-chart-photos.csv'), readTable('chart-24-lab.csv'));

describe('the colour map on real photos, each patch left out in turn', () => {
  it('has every chart that was photographed twice, and the published colours', () => {
    expect(lines.map(({ group }) => group)).toEqual(['O', 'A', 'B', 'C', 'L', 'M', 'published']);
    expect(lines.at(-1)!.pairs).toBe(30);
  });

  it.each(lines)('is no worse than greys alone or a matrix by more than 3 %: $group', ({ greys, linear, map }) => {
    for (const other of [greys, linear]) {
      expect(map.mean).toBeLessThanOrEqual(1.03 * other.mean);
      expect(map.p95).toBeLessThanOrEqual(1.03 * other.p95);
    }
  });

  it('is better than both over all of them', () => {
    const mean = (kind: 'greys' | 'linear' | 'map', figure: 'mean' | 'p95') =>
      lines.reduce((sum, line) => sum + line.pairs * line[kind][figure], 0);
    for (const figure of ['mean', 'p95'] as const) {
      expect(mean('map', figure)).toBeLessThan(0.95 * Math.min(mean('greys', figure), mean('linear', figure)));
    }
  });
});
