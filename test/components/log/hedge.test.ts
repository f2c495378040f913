/** A reading says in the logbook, and in its files, what the sheet said. */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { wordText } from '../../../src/components/keep/measures.ts';
import { toReadingEntry } from '../../../src/components/keep/reading-entry.ts';
import { wordFor } from '../../../src/words/sheet.ts';
import { readLogCsv } from '../../../src/core/log/read-csv.ts';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import type { ReadingEntry } from '../../../src/core/log/schema.ts';
import { judgementText } from '../../../src/words/reading.ts';
import { writeLogCsv } from '../../../src/core/log/write-csv.ts';
import { writeLogJson } from '../../../src/core/log/write-json.ts';
import type { PadReading, ReadOutcome } from '../../../src/core/reading/reading.ts';
import type { ScalePad, StripScale } from '../../../src/core/scale/schema.ts';
import { POOL } from '../../core/log/samples.ts';

const MADE = '2026-07-01T00:00:00.000Z';

const estimate = fc
  .tuple(...([0, 1, 2] as const).map(() => fc.integer({ min: 0, max: 2000 })))
  .map((values) => [...values].sort((a, b) => a - b))
  .map(([low, value, high]) => ({ low: low! / 10, value: value! / 10, high: high! / 10 }));

const anyPad: fc.Arbitrary<PadReading> = fc
  .record({
    found: fc.option(estimate, { nil: null, freq: 8 }),
    alternative: fc.option(estimate, { nil: null, freq: 2 }),
    offScale: fc.option(fc.constantFrom('below' as const, 'above' as const), { nil: null, freq: 2 }),
  })
  .map(({ found, alternative, offScale }) => ({
    quantity: 'total-alkalinity',
    ...(found ?? { value: null, low: null, high: null }),
    alternative: found && alternative,
    offScale: found && offScale,
    openBelow: false,
    openAbove: false,
    matched: found !== null,
    deltaE: 1,
    lab: [60, 0, 0],
    outline: [],
  }));

function keptAs(pad: PadReading, target: { low: number; high: number }): ReadingEntry {
  const outcome = {
    outcome: 'read',
    correction: 'neutrals',
    pads: [pad],
    warnings: [],
    places: [],
    quality: { neutralResidual: 1, shadingPercent: 1, marksResidualMm: 0.1 },
  } as const satisfies ReadOutcome;
  const scale = { id: 'practice-4', name: 'Practice scale', origin: 'practice' } as StripScale;
  const pads = [{ pad, target, byHand: null }];
  const reading = { pads, outcome, scale, time: new Date(MADE), sinceDipSeconds: 20 };
  return toReadingEntry(reading, { temperatureC: null, note: '' }, POOL.id, null);
}

async function throughJson(entry: ReadingEntry): Promise<ReadingEntry> {
  const parts: string[] = [];
  const data = { pools: [POOL], entries: [entry], scales: [], choices: [] };
  for await (const part of writeLogJson(data, [], MADE, 'All.')) parts.push(part);
  const read = readLogJson(parts.join(''));
  if (!read.ok) throw new Error(read.failure);
  return read.incoming.entries[0] as ReadingEntry;
}

function throughCsv(entry: ReadingEntry): ReadingEntry {
  const context = { newId: () => 'fresh-0001', now: MADE, zoneMinutes: 0, poolId: POOL.id, pools: [POOL] };
  const read = readLogCsv(
    writeLogCsv({ pools: [POOL], entries: [entry] }, MADE, { about: 'All.', judgement: judgementText }),
    context,
  );
  if (!read.ok) throw new Error(read.failure);
  return read.incoming.entries[0] as ReadingEntry;
}

it('keeps the word of the sheet with its hedge, in the entry, in JSON and in the table', async () => {
  const met = new Set<string>();
  await fc.assert(
    fc.asyncProperty(anyPad, async (read) => {
      const target = { low: 80, high: 120 };
      const shown = wordFor({ pad: read, scalePad: {} as ScalePad, target, truth: null, byHand: null, timing: null })!;
      const entry = keptAs(read, target);
      met.add(shown.text);
      for (const { values, unmatched } of [entry, await throughJson(entry), throughCsv(entry)]) {
        if (read.matched) expect(wordText(values[0]!)).toBe(shown.text);
        else expect({ values, unmatched }).toEqual({ values: [], unmatched: ['total-alkalinity'] });
      }
      const rows = parse(
        writeLogCsv({ pools: [POOL], entries: [entry] }, MADE, { about: 'All.', judgement: judgementText }),
        { columns: true },
      );
      expect((rows as Record<string, string>[]).at(-1)!['in words']).toBe(shown.text);
    }),
    { seed: 12, numRuns: 400 },
  );
  for (const text of ['low', 'perhaps low', 'likely in range', 'perhaps high', 'high', 'off the scale', 'can’t tell']) {
    expect(met).toContain(text);
  }
});
