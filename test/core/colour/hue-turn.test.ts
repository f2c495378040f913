/** How hues turn together, on real photos of a colour chart: test/reference/real-chart-photos.csv, and its notes on lights. */
import { describe, expect, it } from 'vitest';
import { ANCHORS } from '../../../src/core/card/geometry.ts';
import type { Pair } from '../../../src/core/colour/anchors.ts';
import { hueTurn } from '../../../src/core/colour/hue-turn.ts';
import { decodeSrgb, labToLinear, linearToLab, type Triple } from '../../../src/core/colour/lab.ts';
import { correctedBy, editionsIn, LAST_COLOUR, photosIn } from '../../bench/real/charts.ts';
import { readTable } from '../../reference/read-table.ts';

const photos = new Map(photosIn(readTable('real-chart-photos.csv')).map((photo) => [photo.id, photo]));
const [edition] = editionsIn(readTable('chart-24-lab.csv')).values();

/** Degrees between two real photos of one chart, after its greys. */
function turnBetween(one: string, other: string): number {
  const [now, then] = [one, other].map((id) => correctedBy(photos.get(id)!, edition!)!);
  const pairs = [...now!].flatMap(([patch, from]): Pair[] => {
    const to = then!.get(patch);
    return to && patch <= LAST_COLOUR ? [{ from, to }] : [];
  });
  return hueTurn(pairs);
}

describe('how a light turns hues', () => {
  it.each([
    ['O01', 'O02'],
    ['O01', 'O03'],
    ['O02', 'O03'],
  ])('is little between different phones in one office: %s and %s', (one, other) => {
    expect(Math.abs(turnBetween(one, other))).toBeLessThan(2);
  });

  it.each([
    ['A01', 'A02'],
    ['A03', 'A04'],
    ['C01', 'C02'],
    ['C02', 'C06'],
    ['M02', 'M03'],
  ])('is little between photos of one place: %s and %s', (one, other) => {
    expect(Math.abs(turnBetween(one, other))).toBeLessThan(1);
  });

  it.each([
    ['A01', 'A03', 3],
    ['A02', 'A04', 3],
    ['L01', 'L02', 5],
    ['L01', 'L03', 5],
  ])('is much between two lights: %s and %s', (one, other, least) => {
    expect(Math.abs(turnBetween(one, other))).toBeGreaterThan(least);
    expect(Math.sign(turnBetween(other, one))).toBe(-Math.sign(turnBetween(one, other)));
  });

  const patches: Triple[] = ANCHORS.map(({ srgb }) => srgb.map(decodeSrgb) as unknown as Triple);
  const seenBy = (turn: (hue: number) => number) =>
    patches.map((to): Pair => {
      const [l, a, b] = linearToLab(to);
      const [chroma, hue] = [Math.hypot(a, b), Math.atan2(b, a)];
      const seen = hue + turn(hue);
      return { from: labToLinear([l, chroma * Math.cos(seen), chroma * Math.sin(seen)]), to };
    });

  it('is the angle where all hues turn by one', () => {
    expect(hueTurn(seenBy(() => 0.1))).toBeCloseTo((0.1 * 180) / Math.PI, 0);
    expect(hueTurn(seenBy(() => 0))).toBeCloseTo(0, 9);
  });

  it('is little where some hues turn one way and some the other', () => {
    for (const turn of [Math.cos, Math.sin, (hue: number) => Math.cos(2 * hue), (hue: number) => Math.sin(2 * hue)]) {
      expect(Math.abs(hueTurn(seenBy((hue) => 0.1 * turn(hue))))).toBeLessThan(2.5);
    }
  });

  it('is nothing where no patch is seen', () => {
    expect(hueTurn([])).toBe(0);
  });
});
