import Color from 'colorjs.io';
import { describe, expect, it } from 'vitest';
import { ANCHORS, FIDUCIALS, NEUTRALS, SLOT, parseVersionBits, versionBits } from '../../../src/core/card/geometry.ts';

describe('fiducials', () => {
  /** The code of a square seen turned by quarter turns, then mirrored. */
  function views(cells: readonly string[]): string[] {
    const turned = (rows: readonly string[]) =>
      rows.map((_, i) =>
        rows
          .map((row) => row[i])
          .reverse()
          .join(''),
      );
    const quarter = turned(cells);
    const half = turned(quarter);
    const upright = [cells, quarter, half, turned(half)];
    return [...upright, ...upright.map((rows) => rows.map((row) => [...row].reverse().join('')))].map((rows) =>
      rows.join(''),
    );
  }

  const distance = (a: string, b: string) => [...a].filter((cell, i) => cell !== b[i]).length;

  it('can’t be mistaken for one another or for themselves turned or mirrored', () => {
    const seen = FIDUCIALS.flatMap(({ id, cells }) =>
      views(cells).map((code, view) => ({ name: `${id}/${view}`, code })),
    );
    expect(seen.length).toBe(32);
    const close = seen.flatMap((one, i) =>
      seen
        .slice(i + 1)
        .filter((other) => distance(one.code, other.code) < 6)
        .map((other) => `${one.name} ${other.name}`),
    );
    expect(close).toEqual([]);
  });
});

describe('neutrals', () => {
  it('give eight levels from paper to solid on each side of the slot', () => {
    const above = NEUTRALS.filter(({ yMm, heightMm }) => yMm + heightMm < SLOT.yMm);
    const below = NEUTRALS.filter(({ yMm }) => yMm > SLOT.yMm + SLOT.heightMm);
    const levels = [0, 0.15, 0.3, 0.42, 0.55, 0.7, 0.85, 1];
    expect(above.map(({ ink }) => ink).sort((a, b) => a - b)).toEqual(levels);
    expect(below.map(({ ink }) => ink).sort((a, b) => a - b)).toEqual(levels);
    expect(above.map(({ ink }) => ink)).toEqual(below.map(({ ink }) => ink).reverse());
  });
});

describe('anchors', () => {
  // Lab under D65 by colorjs.io, another implementation than the project's.
  const colours = ANCHORS.map(({ srgb }) => {
    const [lightness, a, b] = new Color('srgb', [...srgb]).to('lab-d65').coords.map(Number) as [number, number, number];
    return { lightness, chroma: Math.hypot(a, b), hue: ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360 };
  });

  it('are twelve pale ones all around the hue circle', () => {
    const pale = colours.filter(({ lightness, chroma }) => lightness > 71 && chroma < 35).map(({ hue }) => hue);
    expect(pale.length).toBeGreaterThanOrEqual(12);
    const sorted = pale.sort((a, b) => a - b);
    const gaps = sorted.map((hue, i) => (sorted[i + 1] ?? sorted[0]! + 360) - hue);
    expect(Math.max(...gaps)).toBeLessThan(40);
  });

  it('have stronger ones too', () => {
    expect(colours.filter(({ lightness, chroma }) => lightness <= 71 && chroma > 31).length).toBeGreaterThanOrEqual(5);
  });
});

describe('the version code', () => {
  it('reads back for every version and variant', () => {
    for (const variant of ['colour', 'black'] as const) {
      for (let version = 1; version <= 31; version++) {
        expect(parseVersionBits(versionBits(version, variant))).toEqual({ version, variant });
      }
    }
  });

  it('tells any one or two wrong cells', () => {
    const flips = Array.from({ length: 10 }, (_, i) => i).flatMap((i) => Array.from({ length: 10 }, (_, j) => [i, j]));
    for (const variant of ['colour', 'black'] as const) {
      for (let version = 1; version <= 31; version++) {
        const bits = versionBits(version, variant);
        for (const flipped of flips) {
          const wrong = bits.map((bit, i) => (flipped.includes(i) ? !bit : bit));
          expect(parseVersionBits(wrong), `${variant} ${version}, cells ${flipped}`).toBeNull();
        }
      }
    }
  });
});
