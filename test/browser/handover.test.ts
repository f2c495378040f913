import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { handOver, takeHandover } from '../../src/browser/handover.ts';
import type { Measurement } from '../../src/core/measurement/measurement.ts';

const KEY = 'dipwise:handover';
const PH: Measurement = {
  quantity: 'ph',
  value: 7.4,
  low: 7.2,
  high: 7.6,
  alternative: { value: 8.2, low: 8, high: 8.4 },
  offScale: null,
  openBelow: false,
  openAbove: true,
  method: 'photo',
  scale: { id: 'practice-four', name: 'Practice scale', origin: 'practice' },
  time: '2026-06-01T09:30:00.000Z',
};
const stored = (change: object) =>
  JSON.stringify({ format: 'dipwise-handover-2', measurements: [{ ...PH, ...change }] });

describe('the handover', () => {
  let kept: Map<string, string>;

  beforeEach(() => {
    kept = new Map();
    vi.stubGlobal('sessionStorage', {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
      clear: () => kept.clear(),
    });
  });
  afterEach(() => vi.unstubAllGlobals());

  it('arrives as it was sent, until it is forgotten', () => {
    expect(handOver([PH])).toBe(true);
    expect(takeHandover()).toEqual([PH]);
    sessionStorage.clear();
    expect(takeHandover()).toEqual([]);
  });

  it.each([
    ['no JSON', '{'],
    ['nothing', 'null'],
    ['what an older page handed over', JSON.stringify({ format: 'dipwise-handover-1', scaleId: 'x', readings: [] })],
    ['an interval upside down', stored({ low: 7.5 })],
    ['a far too negative value', stored({ low: -10, value: -10 })],
    ['a quantity nobody knows', stored({ quantity: 'x' })],
    ['text for a number', stored({ value: '7.4' })],
  ])('takes nothing from %s', (_, text) => {
    kept.set(KEY, text);
    expect(takeHandover()).toEqual([]);
  });

  it('lives without storage', () => {
    vi.stubGlobal('sessionStorage', {
      getItem: () => {
        throw new Error('denied');
      },
      setItem: () => {
        throw new Error('denied');
      },
    });
    expect(handOver([PH])).toBe(false);
    expect(takeHandover()).toEqual([]);
  });
});
