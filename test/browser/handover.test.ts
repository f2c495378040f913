import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { forgetHandover, type Handover, handOver, takeHandover } from '../../src/browser/handover.ts';

const KEY = 'dipwise:handover';
const sound: Handover = {
  format: 'dipwise-handover-1',
  time: '2026-06-01T09:30:00.000Z',
  scaleId: 'practice-four',
  readings: [{ parameter: 'ph', unit: 'pH', value: 7.4, low: 7.2, high: 7.6, offScale: null, origin: 'photo' }],
};

describe('the handover', () => {
  let kept: Map<string, string>;

  beforeEach(() => {
    kept = new Map();
    vi.stubGlobal('sessionStorage', {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
      removeItem: (key: string) => void kept.delete(key),
    });
  });
  afterEach(() => vi.unstubAllGlobals());

  it('arrives as it was sent, until it is forgotten', () => {
    expect(handOver(sound)).toBe(true);
    expect(takeHandover()).toEqual(sound);
    forgetHandover();
    expect(takeHandover()).toBeNull();
  });

  it.each([
    ['no JSON', '{'],
    ['nothing', 'null'],
    ['another format', JSON.stringify({ ...sound, format: 'dipwise-handover-9' })],
    ['an interval upside down', JSON.stringify({ ...sound, readings: [{ ...sound.readings[0], low: 7.5 }] })],
    ['a negative value', JSON.stringify({ ...sound, readings: [{ ...sound.readings[0], low: -1, value: -1 }] })],
    ['a parameter nobody knows', JSON.stringify({ ...sound, readings: [{ ...sound.readings[0], parameter: 'x' }] })],
    ['text for a number', JSON.stringify({ ...sound, readings: [{ ...sound.readings[0], value: '7.4' }] })],
  ])('takes nothing from %s', (_, text) => {
    kept.set(KEY, text);
    expect(takeHandover()).toBeNull();
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
    expect(handOver(sound)).toBe(false);
    expect(takeHandover()).toBeNull();
  });
});
