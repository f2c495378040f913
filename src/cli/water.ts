// `npm run --silent water`: a water per line of JSON on standard input, what follows from it per line on standard output.
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';
import * as z from 'zod';
import { checkWater } from '../core/water/check.ts';
import { activeChlorine } from '../core/water/chlorine.ts';
import { strongAcidToPh } from '../core/water/demand.ts';
import { phWithAir } from '../core/water/equilibrium.ts';
import { WaterError } from '../core/water/errors.ts';
import { handbookIndex } from '../core/water/handbook-index.ts';
import { saturationIndex } from '../core/water/saturation.ts';
import { waterOf, type Water } from '../core/water/water.ts';
import { withoutMark } from './files.ts';
import { called, EXIT, print } from './output.ts';
import { errorSentence, issueSentence } from '../words/water.ts';

const USAGE = `Usage: ${called('water')} < waters.jsonl
One JSON object a line; mg/L, alkalinity and hardness as CaCO3, boron as B, chlorine as Cl2, salt as NaCl:
  {"ph": 7.5, "totalAlkalinity": 80, "calciumHardness": 250, "temperatureC": 26,
   "salt": 3000, "cyanuricAcid": 50, "boron": 0, "freeChlorine": 3, "targetPh": 7.4}
ph, totalAlkalinity, calciumHardness and temperatureC are needed; the others count as 0 when left out.
With targetPh the answer holds the strong acid to reach it, nothing going to the air; negative means base.
A line that can't be worked with gets {"error": "..."} in its place.
Ends with 0 when every line was answered, 1 when some were not, 2 when it was asked wrongly.`;

const TARGET_PH = [4, 11] as const;

const reading = (name: string) =>
  z.number({ error: ({ input }) => (input === undefined ? `${name} is missing` : `${name} must be a number`) });
const optional = (name: string) =>
  reading(name)
    .nullish()
    .transform((value) => value ?? 0);

const lineSchema = z.object(
  {
    ph: reading('ph'),
    totalAlkalinity: reading('totalAlkalinity'),
    calciumHardness: reading('calciumHardness'),
    temperatureC: reading('temperatureC'),
    salt: optional('salt'),
    cyanuricAcid: optional('cyanuricAcid'),
    boron: optional('boron'),
    freeChlorine: optional('freeChlorine'),
    targetPh: reading('targetPh')
      .min(TARGET_PH[0], { error: `targetPh must be at least ${TARGET_PH[0]}` })
      .max(TARGET_PH[1], { error: `targetPh must be at most ${TARGET_PH[1]}` })
      .nullish(),
  },
  { error: 'a line must be a JSON object' },
);

readArguments();
let lineNumber = 0;
for await (const line of createInterface({ input: process.stdin, crlfDelay: Infinity })) {
  lineNumber += 1;
  if (line.trim() === '') continue;
  const found = answer(withoutMark(line), lineNumber);
  if ('error' in found) process.exitCode = EXIT.partly;
  if (!(await print(JSON.stringify(found)))) break;
}

function readArguments(): void {
  try {
    const { values } = parseArgs({ options: { help: { type: 'boolean', short: 'h' } } });
    if (!values.help) return;
  } catch (error) {
    console.error(`${(error as Error).message}\n${USAGE}`);
    process.exit(EXIT.wrongUse);
  }
  console.log(USAGE);
  process.exit(EXIT.done);
}

function answer(line: string, at: number): object {
  const json = parseJson(line);
  if (json === undefined) return { error: 'this line is not JSON' };
  const parsed = lineSchema.safeParse(json);
  if (!parsed.success) return { error: parsed.error.issues.map((issue) => issue.message).join('; ') };
  const ignored = Object.keys(json as object).filter((key) => !(key in lineSchema.shape));
  if (ignored.length > 0) console.error(`line ${at}: not known and left aside: ${ignored.join(', ')}`);
  const { targetPh, ...readings } = parsed.data;
  const issues = checkWater(readings);
  if (issues.length > 0) return { error: issues.map(issueSentence).join('; ') };
  try {
    return results(waterOf(readings), targetPh ?? null);
  } catch (error) {
    if (error instanceof WaterError) return { error: errorSentence(error.code) };
    throw error;
  }
}

function parseJson(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}

/** An index without calcium or carbonate has no value: null. */
function results(water: Water, targetPh: number | null) {
  const chlorine = activeChlorine(water);
  return {
    saturationIndex: rounded(saturationIndex(water)),
    handbookIndex: rounded(handbookIndex(water)),
    hypochlorousAcidMgL: figures(chlorine.by1974),
    hypochlorousAcidLowMgL: figures(chlorine.by2019),
    equilibriumPhWithAir: rounded(phWithAir(water)),
    ...(targetPh === null ? {} : { strongAcidMmolPerL: figures(strongAcidToPh(water, targetPh)) }),
  };
}

function rounded(value: number | null): number | null {
  return value === null || !Number.isFinite(value) ? null : Number(value.toFixed(4));
}

function figures(value: number): number {
  return Number(value.toPrecision(6));
}
