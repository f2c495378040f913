import { describe, expect, it } from 'vitest';
import { parsePlanInput } from '../../../src/core/pool/schema.ts';

type Json = Record<string, unknown>;

const good = () => ({
  pool: {
    volumeLitres: 26_000,
    surface: 'vinyl',
    heater: 'none',
    chlorination: 'chlorinator',
    stabilised: true,
    cell: { gramsPerHour: 12 },
  },
  readings: { ph: { value: 7.8, low: 7.7, high: 7.9 }, temperature: { value: 27 } },
  shelf: [{ product: 'hydrochloric-acid', strength: 31.45 }],
});

/** What is said when one thing is changed. */
const said = (change: (input: ReturnType<typeof good>) => unknown) => {
  const input = good();
  change(input);
  const parsed = parsePlanInput(JSON.parse(JSON.stringify(input)));
  return parsed.ok ? [] : parsed.issues.map(({ where, message }) => `${where}: ${message}`);
};

describe('the input of a plan', () => {
  it('takes a good one and fills in what is blank', () => {
    const parsed = parsePlanInput(good());
    expect(parsed.ok).toBe(true);
    if (!parsed.ok) return;
    expect(parsed.input.pool.cell).toEqual({ gramsPerHour: 12, setting: 1 });
    expect(parsed.input.pool.exposure).toBe('sun');
    expect(parsed.input.fill).toEqual({});
    expect(parsed.input.targets).toEqual({});
  });

  it('says what is wrong, and where', () => {
    expect(said((input) => (input.readings.ph.value = 15))).toContain(
      "readings, ph, value: pH can't be 15: it must lie between 5 and 10",
    );
    expect(said((input) => (input.readings.temperature.value = 82))).toEqual([
      "readings, temperature, value: 82 °C can't be a pool: 82 °F would be 28 °C, was it in Fahrenheit?",
    ]);
    expect(said((input) => (input.readings.temperature.value = -3))).toEqual([
      "readings, temperature, value: -3 °C can't be a pool: it must lie between 0 and 45 °C",
    ]);
    expect(said((input) => (input.readings.ph = { value: 7.8, low: 8, high: 7.9 }))).toEqual([
      'readings, ph: the span from 8 to 7.9 must hold the value 7.8',
    ]);
    expect(said((input) => (input.readings.ph = { value: 7.8, low: 7.9, high: 7.7 }))).toEqual([
      'readings, ph: the span from 7.9 to 7.7 must hold the value 7.8',
    ]);
    expect(said((input) => (input.pool.volumeLitres = 0))).toContain(
      'pool, volumeLitres: the volume must be more than 0 L',
    );
    expect(said((input) => (input.pool.volumeLitres = -26_000))).toContain(
      'pool, volumeLitres: the volume must be more than 0 L',
    );
    expect(said((input) => (input.pool.volumeLitres = 1e12))).toEqual([
      "pool, volumeLitres: the volume can't be more than 4000000 L",
    ]);
    expect(said((input) => ((input.pool as Json)['volumeLitres'] = 'a lot'))).toEqual([
      'pool, volumeLitres: the volume must be a number',
    ]);
    expect(said((input) => (input.shelf[0]!.strength = 0))).toEqual([
      "shelf, 1, strength: hydrochloric (muriatic) acid can't have a strength of 0 %: it must be more than 0 and at most 38 %",
    ]);
    expect(said((input) => (input.shelf[0]!.strength = 300))).toEqual([
      "shelf, 1, strength: hydrochloric (muriatic) acid can't have a strength of 300 %: it must be more than 0 and at most 38 %",
    ]);
    expect(said((input) => (input.shelf[0]!.product = 'snake oil'))).toEqual([
      'shelf, 1, product: this product is not known here',
    ]);
    expect(said((input) => ((input.readings as unknown as Json)['free-chlorine'] = { value: -1 } as never))).toEqual([
      "readings, free-chlorine, value: free chlorine can't be -1 mg/L: it must lie between 0 and 100 mg/L",
    ]);
    expect(said((input) => ((input.readings as unknown as Json)['salt'] = { value: 'salty' } as never))).toEqual([
      'readings, salt, value: salt must be a number',
    ]);
    expect(said((input) => ((input.readings as unknown as Json)['salt'] = { value: null } as never))).toEqual([
      'readings, salt, value: salt must be a number',
    ]);
    expect(said((input) => ((input.pool as unknown as Json)['volumeLowLitres'] = 30_000 as never))).toEqual([
      'pool, volumeLitres: the span of the volume must hold the volume',
    ]);
    expect(said((input) => ((input.pool.cell as unknown as Json)['setting'] = 60 as never))).toEqual([
      'pool, cell, setting: the setting of the chlorinator is a share, at most 1',
    ]);
  });

  it.each([null, undefined, 7, 'text', [], {}, { pool: {} }, { pool: null, readings: 3 }])(
    'refuses %j in sentences',
    (input) => {
      const parsed = parsePlanInput(input);
      expect(parsed.ok).toBe(false);
      if (!parsed.ok) {
        expect(parsed.issues.length).toBeGreaterThan(0);
        parsed.issues.forEach(({ message }) => expect(message.length).toBeGreaterThan(5));
      }
    },
  );

  it.each([Number.NaN, Infinity, -Infinity])('refuses %d', (value) => {
    const input = good();
    input.readings.ph.value = value;
    expect(parsePlanInput(input).ok).toBe(false);
  });
});
