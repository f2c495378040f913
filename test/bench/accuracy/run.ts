// `npm run accuracy [-- READINGS] [--of cases|causes|printers|lights] [--only TEXT] [--json FILE]`: how well strips are read over simulated
// phones, printers, lights and waters. A bench, not a test: it prints tables and judges nothing.
import { writeFile } from 'node:fs/promises';
import { parseArgs } from 'node:util';
import { type Case, CASES, LIGHT_CASES, PRINTER_CASES } from './cases.ts';
import { CAUSE_NAMES, CAUSES, EVERYTHING, without } from './causes.ts';
import { measure } from './measure.ts';
import {
  type Line,
  lineOf,
  PARAMETER_HEAD,
  parameterRows,
  printHead,
  printRow,
  SUMMARY_HEAD,
  summaryCells,
} from './tables.ts';

const USAGE = 'Usage: npm run accuracy [-- READINGS] [--of cases|causes|printers|lights] [--only TEXT] [--json FILE]';

const SUITES = ['cases', 'causes', 'printers', 'lights'] as const;
type Suite = (typeof SUITES)[number];

const { readings, of, only, json } = readArguments();
const lines: Line[] = [];
printHead(SUMMARY_HEAD);
const cases = { cases: CASES, causes: causeCases(), printers: PRINTER_CASES, lights: LIGHT_CASES }[of];
for (const one of cases.filter(({ name }) => name.includes(only))) {
  const line = lineOf(await measure(one, readings));
  lines.push(line);
  printRow(summaryCells(line));
}
if (of === 'cases' || of === 'lights') {
  console.log();
  printHead(PARAMETER_HEAD);
  for (const line of lines) for (const row of parameterRows(line)) printRow(row);
}
if (json) await writeFile(json, `${JSON.stringify({ of, readings, lines }, null, 2)}\n`);

/** The report set in one light, with each cause taken away alone, with those that go together, and with all. */
function causeCases(): Case[] {
  const worlds = [
    ['as it is', EVERYTHING] as const,
    ...CAUSE_NAMES.map((cause) => [`without ${CAUSES[cause]}`, without(cause)] as const),
    ['without light differences and turning', without('light', 'turning')] as const,
    ['without inks and turning', without('inks', 'turning')] as const,
    ['without light differences, inks and turning', without('light', 'inks', 'turning')] as const,
    ['without light differences, inks, turning and dye', without('light', 'inks', 'turning', 'dye')] as const,
    ['without any', without(...CAUSE_NAMES)] as const,
  ];
  const [one] = CASES.filter(({ name }) => name === 'report set: one light');
  return worlds.map(([name, causes]) => ({ ...one!, name, causes }));
}

function readArguments(): { readings: number; of: Suite; only: string; json: string | undefined } {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: {
        of: { type: 'string', default: 'cases' },
        only: { type: 'string', default: '' },
        json: { type: 'string' },
      },
    });
    const count = Number(positionals[0] ?? 400);
    if (!Number.isInteger(count) || count < 1) throw new Error('READINGS is a whole number for each line of the table');
    const suite = SUITES.find((one) => one === values.of);
    if (!suite) throw new Error(`--of is one of: ${SUITES.join(', ')}`);
    return { readings: count, of: suite, only: values.only, json: values.json };
  } catch (error) {
    console.error(`${(error as Error).message}\n${USAGE}`);
    process.exit(2);
  }
}
