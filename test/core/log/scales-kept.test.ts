/** What any strip scale can say can be kept in the logbook, and brought back from its files. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { toReadingEntry } from '../../../src/components/keep/reading-entry.ts';
import { readLogCsv } from '../../../src/core/log/read-csv.ts';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import { entrySchema, type ReadingEntry } from '../../../src/core/log/schema.ts';
import { writeLogCsv } from '../../../src/core/log/write-csv.ts';
import { writeLogJson } from '../../../src/core/log/write-json.ts';
import { PAD_QUANTITIES, unitOf } from '../../../src/core/measurement/quantities.ts';
import type { PadReading, ReadOutcome } from '../../../src/core/reading/reading.ts';
import { parseScale, type ScalePad, type StripScale } from '../../../src/core/scale/schema.ts';
import { judgementText } from '../../../src/words/reading.ts';
import { plainScale } from '../scale/fixtures.ts';
import { POOL } from './samples.ts';

const NOW = '2026-07-01T08:00:00.000Z';

/* Also what no scale may carry: those that are refused say nothing here. */
const value = fc.oneof(
  fc.double({ min: 0, max: 14, noNaN: true }),
  fc.double({ min: 0, max: 120_000, noNaN: true }),
  fc.constantFrom(0, 5e-324, 1e-9, 6000, 100_000),
);
const pad = fc.record({
  parameter: fc.constantFrom(...PAD_QUANTITIES),
  isUnitRight: fc.oneof({ weight: 9, arbitrary: fc.constant(true) }, fc.constant(false)),
  values: fc.uniqueArray(value, { minLength: 2, maxLength: 6 }).map((values) => values.sort((a, b) => a - b)),
});
const scale = fc.record({
  id: fc.oneof(fc.constantFrom('a', 'x'.repeat(64), '0-'), fc.string({ maxLength: 70 })),
  name: fc.oneof(fc.string({ unit: 'binary', maxLength: 150 }), fc.constantFrom('=1+1', '\u0000x\u0007', '\ud800y')),
  pads: fc.uniqueArray(pad, { minLength: 1, maxLength: 7, selector: ({ parameter }) => parameter }),
});

type Sample = typeof scale extends fc.Arbitrary<infer One> ? One : never;

function claimed({ id, name, pads }: Sample): unknown {
  const plain = plainScale();
  return {
    ...plain,
    id,
    name,
    teachings: [],
    pads: pads.map(({ parameter, isUnitRight, values }, i) => ({
      ...plain.pads[0]!,
      parameter,
      unit: isUnitRight ? unitOf(parameter) : unitOf(parameter) === 'pH' ? 'mg/L' : 'pH',
      centreMm: 5 + i * 8,
      widthMm: 5,
      blocks: values.map((one, k) => ({ value: one, lab: [50 + k, k, 2 * k] })),
    })),
  };
}

/** What a photo may give for a pad: its ends, what lies between, and off the scale. */
function found({ parameter: quantity, blocks }: ScalePad, i: number): PadReading {
  const [first, last] = [blocks[0]!.value, blocks.at(-1)!.value];
  const middle = first + (last - first) / 3;
  const ends = [
    { value: first, offScale: 'below' as const, openBelow: true, openAbove: false },
    { value: last, offScale: 'above' as const, openBelow: false, openAbove: true },
    { value: middle, offScale: null, openBelow: true, openAbove: true },
  ];
  const alternative = i % 2 === 0 ? { value: last, low: middle, high: last } : null;
  return {
    quantity,
    low: first,
    high: last,
    alternative,
    deltaE: 1,
    lab: [50, 0, 0],
    outline: [],
    matched: true,
    ...ends[i % 3]!,
  };
}

function kept(read: StripScale): ReadingEntry {
  const pads = read.pads.map(found);
  const outcome = {
    outcome: 'read',
    correction: 'neutrals',
    pads,
    warnings: [],
    places: [],
    quality: { neutralResidual: 1, shadingPercent: 1, marksResidualMm: 0.1 },
  } satisfies ReadOutcome;
  const sheet = pads.map((one) => ({ pad: one, target: null, byHand: null }));
  const facts = { pads: sheet, outcome, scale: read, time: new Date(NOW), sinceDipSeconds: 20 };
  return toReadingEntry(facts, { temperatureC: null, note: '' }, POOL.id, null);
}

it('a scale that is taken gives readings that the logbook takes, and gives back from both its files', async () => {
  let taken = 0;
  await fc.assert(
    fc.asyncProperty(scale, async (sample) => {
      const parsed = parseScale(claimed(sample));
      if (!parsed.ok) return;
      taken += 1;
      const entry = kept(parsed.scale);
      expect(entrySchema.safeParse(entry)).toMatchObject({ success: true });
      const log = { pools: [POOL], entries: [entry] };
      const parts: string[] = [];
      const file = writeLogJson({ ...log, scales: [parsed.scale], choices: [] }, [], NOW, 'All.');
      for await (const part of file) parts.push(part);
      const json = readLogJson(parts.join(''));
      expect(json).toMatchObject({ ok: true, problems: [], incoming: { entries: [entry], scales: [parsed.scale] } });
      const about = { newId: () => 'fresh-0001', now: NOW, zoneMinutes: 0, poolId: POOL.id, pools: [POOL] };
      const table = readLogCsv(writeLogCsv(log, NOW, { about: 'All.', judgement: judgementText }), about);
      expect(table).toMatchObject({ ok: true, problems: [] });
      expect(table.ok && (table.incoming.entries[0] as ReadingEntry).values.length).toBe(entry.values.length);
    }),
    { seed: 8, numRuns: 500 },
  );
  expect(taken).toBeGreaterThan(100);
});
