import { describe, expect, it } from 'vitest';
import { parsePlanInput } from '../../../src/core/pool/schema.ts';
import { numberText } from '../../../src/words/numbers.ts';
import { planIssuePlace, planIssueText } from '../../../src/words/plan-input.ts';

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
  return parsed.ok ? [] : parsed.issues.map((issue) => `${planIssuePlace(issue)}: ${planIssueText(issue, 'metric')}`);
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
      'readings, ph, value: pH can’t be 15: it must lie between 5 and 10',
    );
    expect(said((input) => (input.readings.temperature.value = 82))).toEqual([
      'readings, temperature, value: 82 °C can’t be a pool: 82 °F would be 28 °C, was it in Fahrenheit?',
    ]);
    expect(said((input) => (input.readings.temperature.value = -3))).toEqual([
      'readings, temperature, value: the water temperature can’t be −3 °C: it must lie between 0 °C and 45 °C',
    ]);
    expect(said((input) => (input.readings.ph = { value: 7.8, low: 8, high: 7.9 }))).toEqual([
      'readings, ph: the span from 8 to 7.9 must hold the value 7.8',
    ]);
    expect(said((input) => (input.readings.ph = { value: 7.8, low: 7.9, high: 7.7 }))).toEqual([
      'readings, ph: the span from 7.9 to 7.7 must hold the value 7.8',
    ]);
    expect(said((input) => (input.pool.volumeLitres = 0))).toContain(
      'pool, volumeLitres: the volume can’t be 0 L: it must be more than 0 L',
    );
    expect(said((input) => (input.pool.volumeLitres = -26_000))).toContain(
      'pool, volumeLitres: the volume can’t be −26,000 L: it must be more than 0 L',
    );
    expect(said((input) => (input.pool.volumeLitres = 1e12))).toEqual([
      'pool, volumeLitres: the volume can’t be 1,000,000,000,000 L: 4,000,000 L is the most',
    ]);
    expect(said((input) => ((input.pool as Json)['volumeLitres'] = 'a lot'))).toEqual([
      'pool, volumeLitres: the volume must be a number',
    ]);
    expect(said((input) => (input.shelf[0]!.strength = 0))).toEqual([
      'shelf, 1, strength: hydrochloric (muriatic) acid can’t have a strength of 0 %: it must be more than 0 and at most 38 %',
    ]);
    expect(said((input) => (input.shelf[0]!.strength = 300))).toEqual([
      'shelf, 1, strength: hydrochloric (muriatic) acid can’t have a strength of 300 %: it must be more than 0 and at most 38 %',
    ]);
    expect(said((input) => (input.shelf[0]!.product = 'snake oil'))).toEqual([
      expect.stringMatching(/^shelf, 1, product: the product must be .* or /) as string,
    ]);
    expect(said((input) => ((input.readings as unknown as Json)['free-chlorine'] = { value: -1 } as never))).toEqual([
      'readings, free-chlorine, value: free chlorine can’t be −1 mg/L: it must lie between 0 mg/L and 100 mg/L',
    ]);
    expect(said((input) => ((input.readings as unknown as Json)['salt'] = { value: 'salty' } as never))).toEqual([
      'readings, salt, value: salt must be a number',
    ]);
    expect(said((input) => ((input.readings as unknown as Json)['salt'] = { value: null } as never))).toEqual([
      'readings, salt, value: salt must be a number',
    ]);
    expect(said((input) => ((input.pool as unknown as Json)['volumeLowLitres'] = 30_000 as never))).toEqual([
      'pool, volumeLitres: the span from 30,000 L to 26,000 L must hold the value 26,000 L',
    ]);
    expect(said((input) => ((input.pool.cell as unknown as Json)['setting'] = 60 as never))).toEqual([
      'pool, cell, setting: the setting of the chlorinator can’t be 6,000 %: 100 % is the most',
    ]);
  });

  it.each([null, undefined, 7, 'text', [], {}, { pool: {} }, { pool: null, readings: 3 }])(
    'refuses %j in sentences',
    (input) => {
      const parsed = parsePlanInput(input);
      expect(parsed.ok).toBe(false);
      if (!parsed.ok) {
        expect(parsed.issues.length).toBeGreaterThan(0);
        parsed.issues.forEach((issue) => expect(planIssueText(issue, 'metric').length).toBeGreaterThan(5));
      }
    },
  );

  it.each([Number.NaN, Infinity, -Infinity])('refuses %d', (value) => {
    const input = good();
    input.readings.ph.value = value;
    expect(parsePlanInput(input).ok).toBe(false);
  });

  /** A good input with one value put somewhere: 'pool.cell.gramsPerHour'. */
  const put = (path: string, value: unknown) =>
    said((input) => {
      const steps = path.split('.');
      let place = input as unknown as Json;
      for (const step of steps.slice(0, -1)) place = (place[step] ??= {}) as Json;
      place[steps.at(-1)!] = value;
    });

  // The ends that the sentences name belong to what is allowed.
  it.each([
    ['readings.free-chlorine', [0, 100], [-0.1, 100.1]],
    ['readings.total-chlorine', [0, 100], [-0.1, 100.1]],
    ['readings.ph', [5, 10], [4.9, 10.1]],
    ['readings.total-alkalinity', [0, 800], [-1, 801]],
    ['readings.total-hardness', [0, 3000], [-1, 3001]],
    ['readings.calcium-hardness', [0, 3000], [-1, 3001]],
    ['readings.cyanuric-acid', [0, 500], [-1, 501]],
    ['readings.salt', [0, 25_000], [-1, 25_001]],
    ['readings.boron', [0, 150], [-1, 151]],
    ['readings.temperature', [0, 45], [-0.1, 200]],
  ])('%s: takes %j, refuses %j', (path, good, bad) => {
    const id = path.split('.')[1]!;
    for (const value of good) expect(put(path, { value }), String(value)).toEqual([]);
    for (const value of bad) {
      const [line, ...others] = put(path, { value });
      expect(others).toEqual([]);
      expect(line).toMatch(new RegExp(`^readings, ${id}, value: .*${numberText(value)}`));
      const [low, high] = good.map((end) => `${numberText(end)}( \\S+)?`) as [string, string];
      expect(line).toMatch(new RegExp(`it must lie between ${low} and ${high}$`));
    }
  });

  it.each([
    ['pool.volumeLitres', [100, 4_000_000], [99, 4_000_001]],
    ['pool.volumeLowLitres', [100, 26_000], [99, 26_001]],
    ['pool.volumeHighLitres', [26_000, 4_000_000], [25_999, 4_000_001]],
    ['pool.surfaceM2', [0.1, 5000], [0, 5001, 'large']],
    ['pool.surface', ['plaster'], ['wood']],
    ['pool.heater', ['none', 'copper', 'other'], ['gold']],
    ['pool.stabilised', [true, false], ['yes']],
    ['pool.exposure', ['sun', 'covered'], ['moon']],
    ['pool.name', ['', 'x'.repeat(80)], ['x'.repeat(81)]],
    [
      'pool.pump',
      [{ litresPerHour: 500_000, basis: 'measured' }, { litresPerHour: 1 }],
      [{ litresPerHour: 0 }, { litresPerHour: 500_001 }, { litresPerHour: 9, basis: 'guessed' }, {}],
    ],
    [
      'pool.cell',
      [{ gramsPerHour: 2000, setting: 1, amperes: 500, gaps: 100 }],
      [
        { gramsPerHour: 2001 },
        { gramsPerHour: 0 },
        { gramsPerHour: 9, setting: 0 },
        { gramsPerHour: 9, setting: 1.1 },
        { gramsPerHour: 9, amperes: 501 },
        { gramsPerHour: 9, gaps: 101 },
        { gramsPerHour: 9, volts: 9 },
      ],
    ],
    [
      'readings.ph',
      [
        { value: 7, low: 7, high: 7 },
        { value: 7, offScale: null },
        { value: 7, offScale: 'below', openBelow: true, openAbove: false },
      ],
      [
        { value: 7, low: 7.1 },
        { value: 7, high: 6.9 },
        { value: 7, offScale: 'beside' },
        { value: 7, openBelow: 1 },
        { value: 7, deep: 1 },
      ],
    ],
    [
      'shelf',
      [[], Array(40).fill({ product: 'hydrochloric-acid' }), [{ product: 'hydrochloric-acid', strength: 38 }]],
      [
        Array(41).fill({ product: 'hydrochloric-acid' }),
        [{ product: 'hydrochloric-acid', strength: 38.1 }],
        [{ product: 'hydrochloric-acid', strength: -1 }],
      ],
    ],
    [
      'look',
      [{}, { water: 'green', bottomVisible: true }],
      [{ water: 'blue' }, { bottomVisible: 'yes' }, { smell: 1 }],
    ],
    ['fill', [{}, { ph: 5, salt: 25_000 }], [{ ph: 4.9 }, { salt: 25_001 }, { boron: 1 }]],
    [
      'chlorineLoss',
      [{ before: { value: 3 }, after: { value: 2 }, hours: 72, night: true }],
      [
        { before: { value: 3 }, after: { value: 2 }, hours: 73, night: true },
        { before: { value: 3 }, after: { value: 2 }, hours: 0, night: true },
        { before: { value: 3 }, after: { value: 2 }, hours: 9 },
        { before: { value: 101 }, after: { value: 2 }, hours: 9, night: true },
      ],
    ],
    [
      'chlorineUse',
      [
        { value: 0, low: 0, high: 0 },
        { value: 100, low: 0, high: 100 },
      ],
      [
        { value: 101, low: 0, high: 101 },
        { value: 1, low: 1.1, high: 2 },
        { value: 2.1, low: 1, high: 2 },
        { value: 1, low: -1, high: 2 },
        { value: -1, low: -1, high: 2 },
      ],
    ],
    ['weather', [], ['wet']],
  ])('%s: takes %j, refuses %j in a sentence', (path, good, bad) => {
    for (const value of good) expect(put(path, value), JSON.stringify(value)).toEqual([]);
    for (const value of bad) {
      const lines = put(path, value);
      expect(lines.length, JSON.stringify(value)).toBeGreaterThan(0);
      for (const line of lines) expect(line).toMatch(/: .{8,}/);
    }
  });

  it('asks for the right slip of temperature beyond 45 °C: 113 °F is the most that a pool may have', () => {
    expect(put('readings.temperature', { value: 45.1 })[0]).toMatch(/45.1 °F would be 7 °C/);
    expect(put('readings.temperature', { value: 113 })[0]).toMatch(/113 °F would be 45 °C/);
    expect(put('readings.temperature', { value: 115 })[0]).not.toMatch(/Fahrenheit/);
    expect(put('readings.temperature', { value: 'warm' })[0]).toMatch(/the water temperature must be a number/);
  });

  it('names only the end of a span that is given', () => {
    expect(put('readings.ph', { value: 7, low: 7.1 })).toEqual([
      'readings, ph: the span from 7.1 to 7 must hold the value 7',
    ]);
    expect(put('readings.ph', { value: 7, high: 6.9 })).toEqual([
      'readings, ph: the span from 7 to 6.9 must hold the value 7',
    ]);
  });

  it.each([
    ['pool.surface', 'wood', /lining must be vinyl, \w+, \w+ or tile$/],
    ['pool.heater', 'gold', /heater must be none, copper, other or collector$/],
    ['pool.chlorination', 'prayer', /way of chlorinating must be \w+, .* or dichlor$/],
    ['pool.stabilised', 'yes', /say whether the pool is kept with stabilizer/],
    ['pool.exposure', 'moon', /where the pool lies must be sun or covered$/],
    ['pool.name', 'x'.repeat(81), /name of the pool can’t be longer than 80 letters$/],
    ['pool.volumeLitres', 99, /the volume can’t be 99 L: it must be at least 100 L$/],
    ['pool.volumeLitres', 4_000_001, /the volume can’t be 4,000,001 L: 4,000,000 L is the most$/],
    ['pool.surfaceM2', 0, /surface of the water can’t be 0 m²: it must be more than 0 m²$/],
    ['pool.pump', { litresPerHour: 0 }, /flow of the pump can’t be 0 L\/h: it must be more than 0 L\/h$/],
    ['pool.cell.gramsPerHour', 2001, /output of the chlorinator can’t be 2,001 g\/h: 2,000 g\/h is the most$/],
    ['pool.cell.setting', 0, /setting of the chlorinator can’t be 0 %: it must be more than 0 %$/],
    ['pool.cell.setting', 'full', /setting of the chlorinator must be a number/],
    ['pool.cell.amperes', 0, /current of the cell can’t be 0: it must be more than 0$/],
    ['pool.cell.gaps', 101, /number of gaps can’t be 101: 100 is the most$/],
    ['shelf.0.strength', 'strong', /strength must be a number/],
    ['shelf', Array(41).fill({ product: 'hydrochloric-acid' }), /list of products holds at most 40$/],
    ['readings.total-alkalinity', { value: 801 }, /total alkalinity can’t be 801 mg\/L/],
    ['readings.boron', { value: 151 }, /boron can’t be 151 mg\/L/],
    ['readings.salt', { value: -1 }, /salt can’t be −1 mg\/L/],
    ['readings.ph', { value: 11 }, /pH can’t be 11:/],
    [
      'chlorineLoss',
      { before: { value: 3 }, after: { value: 2 }, hours: 0, night: true },
      /hours between the readings can’t be 0 h: it must be more than 0 h$/,
    ],
    ['chlorineLoss', { before: { value: 3 }, after: { value: 2 }, hours: 9 }, /say whether it was night/],
    ['chlorineUse', { value: 101, low: 0, high: 100 }, /101: 100 is the most$/],
    ['chlorineUse', { value: 1, low: 2, high: 3 }, /span from 2 to 3 must hold the value 1$/],
  ])('%s of %j: %s', (path, value, sentence) => {
    expect(put(path, value).join('\n')).toMatch(new RegExp(sentence, 'm'));
  });

  it('fills in what is left out', () => {
    const bare = { ...good(), shelf: undefined };
    const parsed = parsePlanInput(
      JSON.parse(JSON.stringify({ ...bare, pool: { ...bare.pool, pump: { litresPerHour: 9 } } })),
    );
    expect(parsed.ok && parsed.input).toMatchObject({
      shelf: [],
      look: {},
      pool: { name: '', pump: { basis: 'rated' } },
    });
    const named = parsePlanInput({ ...good(), pool: { ...good().pool, name: ' Garden ' } });
    expect(named.ok && named.input.pool.name).toBe('Garden');
  });
});
