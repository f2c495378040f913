import { describe, expect, it } from 'vitest';
import { drawRatios } from './picture.ts';
import type { Ratio } from './section.ts';

const RATIOS: readonly Ratio[] = [
  { name: 'four times', ratio: 4, wanted: 3 },
  { name: 'a quarter', ratio: 0.25, wanted: null },
  { name: 'met & so on', ratio: 2, wanted: 2.5 },
  { name: 'unknown', ratio: NaN, wanted: 1 },
];

/** From where to where each bar runs, px. */
function barsOf(svg: string): [number, number][] {
  return [...svg.matchAll(/d="M([\d.]+) [\d.]+H([\d.]+)V[\d.]+H/g)].map(([, from, to]) => [Number(from), Number(to)]);
}

describe('the picture of the ratios', () => {
  const svg = drawRatios(RATIOS, 'a machine <of ours>');

  it('runs bars from 1, four times as far right as a quarter runs left, for what was measured alone', () => {
    const [four, quarter, met, ...others] = barsOf(svg);
    expect(others).toEqual([]);
    expect(four![0]).toBe(quarter![0]);
    expect(four![1] - four![0]).toBeCloseTo(quarter![0] - quarter![1], 0);
    expect(met![1]).toBeLessThan(four![1]);
  });

  it('puts a notch where the most that is wanted would end', () => {
    const notches = [...svg.matchAll(/d="M([\d.]+) [\d.]+V[\d.]+" stroke="#2b2a27" stroke-width="2"/g)].map(([, at]) =>
      Number(at),
    );
    const [four, , met] = barsOf(svg);
    expect(notches).toHaveLength(2);
    expect(notches[0]).toBeLessThan(four![1]);
    expect(notches[1]).toBeGreaterThan(met![1]);
  });

  it('says in words what it shows', () => {
    const [, description] = /<desc id="d">([^<]*)<\/desc>/.exec(svg)!;
    expect(description).toBe(
      'four times: 4.00, wanted at most 3, not met; a quarter: 0.25; met &amp; so on: 2.00, wanted at most 2.5, met; unknown: not measured.',
    );
    expect(svg).toContain('>4.00 not met</text>');
    expect(svg).toContain('a machine &lt;of ours>');
  });

  it('holds in grey: all its colours are inks of one lightness order, none carries meaning', () => {
    const colours = new Set([...svg.matchAll(/#[0-9a-f]{6}/g)].map(([colour]) => colour));
    expect(colours).toEqual(new Set(['#2b2a27', '#8a857a', '#faf6ec']));
  });
});
