/** Nothing is lost on the way from a pad to the plan and the logbook, and back through the exported files. */
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { handOver, takeHandover } from '../../../src/browser/handover.ts';
import { toReadingEntry } from '../../../src/components/keep/reading-entry.ts';
import { measurementOf } from '../../../src/core/reading/entry.ts';
import { readLogCsv } from '../../../src/core/log/read-csv.ts';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import type { ReadingEntry } from '../../../src/core/log/schema.ts';
import { writeLogCsv } from '../../../src/core/log/write-csv.ts';
import { writeLogJson } from '../../../src/core/log/write-json.ts';
import type { Measurement } from '../../../src/core/measurement/measurement.ts';
import { TYPED_METHODS } from '../../../src/core/measurement/methods.ts';
import { PAD_QUANTITIES, QUANTITIES } from '../../../src/core/measurement/quantities.ts';
import { parsePlanInput } from '../../../src/core/pool/schema.ts';
import { type ByHand, measuredByPad } from '../../../src/core/reading/measured.ts';
import type { PadReading, ReadOutcome } from '../../../src/core/reading/reading.ts';
import type { ScalePad, StripScale } from '../../../src/core/scale/schema.ts';
import { knownWater } from '../../../src/core/water/plan/known.ts';
import { judgementText } from '../../../src/words/reading.ts';
import { POOL } from '../log/samples.ts';
import { plain, planned, parsed } from '../water/plan/inputs.ts';

const NOW = '2026-07-01T08:00:00.000Z';

const anyPad = fc
  .record({
    quantity: fc.constantFrom(...PAD_QUANTITIES),
    places: fc.tuple(...[0, 1, 2, 3, 4, 5].map(() => fc.integer({ min: 0, max: 1000 }))),
    two: fc.boolean(),
    matched: fc.oneof({ weight: 8, arbitrary: fc.constant(true) }, fc.constant(false)),
    offScale: fc.constantFrom(null, null, 'below' as const, 'above' as const),
    openBelow: fc.boolean(),
    openAbove: fc.boolean(),
  })
  .map(({ quantity, places, two, matched, ...ends }): PadReading => {
    const { min, max } = QUANTITIES[quantity];
    const [low, value, high, low2, value2, high2] = places
      .map((place) => min + (place / 1000) * (max - min))
      .sort((a, b) => a - b) as [number, number, number, number, number, number];
    const colour = { deltaE: 1, lab: [60, 0, 0], outline: [] } as const;
    return matched
      ? {
          quantity,
          value,
          low,
          high,
          alternative: two ? { value: value2, low: low2, high: high2 } : null,
          ...ends,
          ...colour,
          matched,
        }
      : {
          quantity,
          value: null,
          low: null,
          high: null,
          alternative: null,
          offScale: null,
          openBelow: false,
          openAbove: false,
          ...colour,
          matched,
        };
  });
const byHand: fc.Arbitrary<ByHand | null> = fc.option(
  fc.record({
    value: fc.integer({ min: 50, max: 100 }).map((tenths) => tenths / 10),
    method: fc.constantFrom(...TYPED_METHODS),
  }),
  { nil: null },
);
const reading = fc.record({
  pads: fc.uniqueArray(fc.record({ pad: anyPad, byHand }), { maxLength: 7, selector: ({ pad }) => pad.quantity }),
  scale: fc.constantFrom(
    { id: 'practice-five', name: 'Practice scale', origin: 'practice' as const },
    { id: 'my-strips', name: 'The strips in the shed', origin: 'taught' as const },
  ),
  temperatureC: fc.option(fc.integer({ min: 5, max: 35 }), { nil: null }),
});

const sheetEntry = (one: { pad: PadReading; byHand: ByHand | null }) =>
  ({ ...one, scalePad: {} as ScalePad, target: null, truth: null, timing: null }) as const;

async function throughJson(entry: ReadingEntry): Promise<ReadingEntry> {
  const parts: string[] = [];
  for await (const part of writeLogJson({ pools: [POOL], entries: [entry], scales: [], choices: [] }, [], NOW, 'All.'))
    parts.push(part);
  const read = readLogJson(parts.join(''));
  if (!read.ok) throw new Error(read.failure);
  expect(read.problems).toEqual([]);
  return read.incoming.entries[0] as ReadingEntry;
}

function throughCsv(entry: ReadingEntry): ReadingEntry {
  const context = { newId: () => 'fresh-0001', now: NOW, zoneMinutes: 0, poolId: POOL.id, pools: [POOL] };
  const read = readLogCsv(
    writeLogCsv({ pools: [POOL], entries: [entry] }, NOW, { about: 'All.', judgement: judgementText }),
    context,
  );
  if (!read.ok) throw new Error(read.failure);
  expect(read.problems).toEqual([]);
  return read.incoming.entries[0] as ReadingEntry;
}

describe('a measurement on its way', () => {
  beforeAll(() => {
    const kept = new Map<string, string>();
    vi.stubGlobal('sessionStorage', {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, value: string) => void kept.set(key, value),
    });
  });
  afterAll(() => vi.unstubAllGlobals());

  it('from pad to plan arrives as it was: value, interval, both stretches, open ends, method, scale and time', () => {
    fc.assert(
      fc.property(reading, ({ pads, scale }) => {
        const sent = pads.flatMap((one) => measurementOf(sheetEntry(one), scale, NOW) ?? []);
        handOver(sent);
        const taken = takeHandover();
        expect(taken).toEqual(sent);
        // A value by hand may be one that no pool can have; the plan says so, and takes nothing else from it.
        const possible = taken.filter(
          ({ quantity, value }) => value >= QUANTITIES[quantity].min && value <= QUANTITIES[quantity].max,
        );
        const readings = Object.fromEntries(possible.map(({ quantity, ...rest }) => [quantity, rest]));
        const input = parsePlanInput({ ...plain(), readings });
        expect(input.ok && input.input.readings).toEqual(readings);
      }),
      { seed: 18, numRuns: 300 },
    );
  });

  it('from pad to logbook and back through JSON and table loses nothing', async () => {
    await fc.assert(
      fc.asyncProperty(reading, async ({ pads, scale, temperatureC }) => {
        const outcome = {
          outcome: 'read',
          correction: 'neutrals',
          pads: pads.map(({ pad }) => pad),
          warnings: [],
          places: [],
          quality: { neutralResidual: 1, shadingPercent: 1, marksResidualMm: 0.1 },
        } satisfies ReadOutcome;
        const kept = pads.map((one) => ({ ...one, target: null }));
        const facts = { pads: kept, outcome, scale: scale as StripScale, time: new Date(NOW), sinceDipSeconds: 20 };
        const entry = toReadingEntry(facts, { temperatureC, note: '' }, POOL.id, null);
        const byPhoto = pads.flatMap(({ pad }) => measuredByPad(pad, scale, NOW) ?? []);
        const counting = pads.flatMap((one) => measurementOf(sheetEntry(one), scale, NOW) ?? []);
        for (const back of [entry, await throughJson(entry), throughCsv(entry)]) {
          const measurements = back.values.map((value) => ({
            ...value,
            scale: value.method === 'photo' ? back.scale : null,
            time: back.time,
          }));
          for (const one of [...byPhoto, ...counting])
            expect(measurements).toContainEqual(expect.objectContaining(one));
          const temperature = measurements.find(({ quantity }) => quantity === 'temperature');
          expect(temperature?.value ?? null).toBe(temperatureC);
          expect(back.unmatched).toEqual(pads.filter(({ pad }) => !pad.matched).map(({ pad }) => pad.quantity));
        }
      }),
      { seed: 19, numRuns: 300 },
    );
  });
});

describe('an end that the scale leaves open', () => {
  const shapes: readonly Partial<Measurement>[] = [
    { value: 9, low: 8, high: 10, openAbove: true },
    { value: 10, low: 10, high: 10, offScale: 'above' },
    { value: 10, low: 9.5, high: 10, offScale: 'above', openAbove: true },
    { value: 4, low: 3, high: 5, alternative: { value: 9, low: 8, high: 10 } },
    { value: 4, low: 3, high: 5, alternative: { value: 10, low: 9, high: 12 } },
    { value: 2, low: 1, high: 3, openBelow: true },
    { value: 1, low: 1, high: 1, offScale: 'below' },
    { value: 0, low: 0, high: 0.5 },
  ];
  const found = (change: Partial<Measurement>) =>
    parsed(plain({ readings: { 'free-chlorine': change, 'total-chlorine': undefined }, without: ['total-chlorine'] }));

  it.each(shapes.map((shape) => [JSON.stringify(shape), shape] as const))(
    '%s reaches what the plan knows',
    (_, shape) => {
      const known = knownWater(found(shape)).known['free-chlorine'];
      expect(known.low).toBeLessThanOrEqual(Math.min(shape.low!, shape.alternative?.low ?? shape.low!));
      expect(known.high).toBeGreaterThanOrEqual(Math.max(shape.high!, shape.alternative?.high ?? shape.high!));
      if (shape.openAbove || shape.offScale === 'above') {
        expect(known.open).toBe('above');
        expect(known.high).toBeGreaterThan(shape.high!);
      }
      if (shape.openBelow || shape.offScale === 'below') expect(known.low).toBe(0);
    },
  );

  /* Nobody swims above 10 mg/L: CDC Model Aquatic Health Code 2018, read in a trade report. */
  it('never lets chlorine of 8 to 10 with the top open go without a word against swimming', () => {
    const swim = (shape: Partial<Measurement>) => planned(found(shape))?.verdict.swim;
    // An interval that ends below the limit; one that reaches it says as little as an open one.
    expect(swim({ value: 8.7, low: 8, high: 9.4 })).not.toBe('cannot-say');
    for (const shape of shapes.slice(0, 3)) expect(swim(shape)).toMatch(/cannot-say|stay-out/);
    expect(swim(shapes[4]!)).toMatch(/cannot-say|stay-out/);
    expect(swim(shapes[5]!)).toMatch(/cannot-say|stay-out/);
    expect(swim(shapes[6]!)).toMatch(/cannot-say|stay-out/);
  });
});
