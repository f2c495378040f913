/** Files that nobody should trust. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import { judgementText } from '../../../src/words/reading.ts';
import { writeLogCsv } from '../../../src/core/log/write-csv.ts';

const json = readFileSync(new URL('versions/v4.json', import.meta.url), 'utf8');
const sound = readLogJson(json);
if (!sound.ok) throw new Error('the sample file must be sound');
const csv = writeLogCsv(sound.incoming, '2026-07-01T00:00:00.000Z', { about: 'About.', judgement: judgementText });
type Change = (file: string, at: number, insert: string) => string;

/** Cut, doubled, overwritten, swapped: what editors, broken downloads and bad intentions do to a file. */
const CHANGES: readonly Change[] = [
  (file, at) => file.slice(0, at),
  (file, at) => file.slice(at),
  (file, at) => file.slice(0, at) + file.slice(at + 1),
  (file, at) => file.slice(0, at) + file.slice(at, at + 200) + file.slice(at),
  (file, at, insert) => file.slice(0, at) + insert + file.slice(at),
  (file, at, insert) => file.slice(0, at) + insert + file.slice(at + insert.length),
  (file, at) => file.replace(/\d+/g, (digits, offset: number) => (offset > at ? `-${digits}e9` : digits)),
  (file, at) => file.replace(/null|true|"[a-z-]+"/g, (token, offset: number) => (offset > at ? '[[]]' : token)),
  (file, at) => file.replaceAll('\r\n', '\n').slice(at) + file,
];

const INSERTS = [
  '"',
  ',',
  '\n',
  '{',
  ']',
  '\u0000',
  '\ud800',
  '__proto__',
  '1e999',
  '<script>',
  "'",
  '\\',
  'null',
  '﻿',
];

const mutated = fc
  .record({
    base: fc.constantFrom(json, csv),
    steps: fc.array(
      fc.record({
        change: fc.constantFrom(...CHANGES),
        at: fc.double({ min: 0, max: 1, noNaN: true }),
        insert: fc.constantFrom(...INSERTS),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map(({ base, steps }) =>
    steps.reduce(
      (file, { change, at, insert }) => change(file, Math.floor(at * file.length), insert).slice(0, 20_000),
      base,
    ),
  );

/** A file as someone might choose it: a mutated logbook or table, noise, or other JSON. */
export const hostileFile = fc.oneof(
  { weight: 6, arbitrary: mutated },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 300 }) },
  { weight: 1, arbitrary: fc.json() },
  {
    weight: 1,
    arbitrary: fc
      .array(fc.json({ maxDepth: 2 }), { maxLength: 4 })
      .map(
        (items) =>
          `{"format":"dipwise-logbook","version":3,"entries":[${items.join(',')}],"pools":[${items.join(',')}]}`,
      ),
  },
);
