// `npm run --silent plan`: a plan's input per line of JSON on standard input, a plan per line on standard output.
import { createInterface } from 'node:readline';
import { parseArgs } from 'node:util';
import { planFrom } from '../core/water/plan/make-plan.ts';
import type { Plan } from '../core/water/plan/types.ts';
import { planToText } from '../words/plan/plan-to-text.ts';
import type { UnitSystem } from '../core/water/units.ts';
import { planIssuePlace, planIssueText } from '../words/plan-input.ts';
import { withoutMark } from './files.ts';
import { called, EXIT, print } from './output.ts';

const USAGE = `Usage: ${called('plan')} [--text] [--units us] < inputs.jsonl
One plan input a line, in metric: litres, °C, mg/L. Only the pool is needed; the README lists every field:
  {"pool": {"volumeLitres": 26100, "surface": "vinyl", "heater": "none", "chlorination": "chlorinator",
            "stabilised": true, "cell": {"gramsPerHour": 12}},
   "readings": {"free-chlorine": {"value": 1.5, "low": 1, "high": 2}, "ph": {"value": 7.8}}}
Out: {"ok": true, "plan": {...}} or {"ok": false, "issues": [{"code", "where", "message"}]}, a line for each line.
--text   words instead, in the units of --units (metric or us)
A line that can't be worked with doesn't end the stream.
Ends with 0 when every line became a plan, and with 2 when one was no plan's input or the command was asked wrongly.`;

const { asText, units } = readArguments();
let lineNumber = 0;
for await (const line of createInterface({ input: process.stdin, crlfDelay: Infinity })) {
  lineNumber += 1;
  if (line.trim() === '') continue;
  const outcome = outcomeOf(withoutMark(line));
  if (!outcome.ok) process.exitCode = EXIT.wrongUse;
  if (!(await print(asText ? text(outcome, lineNumber) : JSON.stringify(outcome)))) break;
}

function readArguments(): { asText: boolean; units: UnitSystem } {
  try {
    const { values } = parseArgs({
      options: {
        help: { type: 'boolean', short: 'h' },
        text: { type: 'boolean', default: false },
        units: { type: 'string', default: 'metric' },
      },
    });
    if (values.help) {
      console.log(USAGE);
      process.exit(EXIT.done);
    }
    if (values.units !== 'metric' && values.units !== 'us') throw new Error('--units must be metric or us.');
    return { asText: values.text, units: values.units };
  } catch (error) {
    console.error(`${(error as Error).message}\n${USAGE}`);
    process.exit(EXIT.wrongUse);
  }
}

/** A plan, or what is wrong with the line: a code, its place and a sentence. */
type Outcome =
  | { readonly ok: true; readonly plan: Plan }
  | { readonly ok: false; readonly issues: readonly { code: string; where: string; message: string }[] };

function outcomeOf(line: string): Outcome {
  const json = parseJson(line);
  if (json === undefined) {
    return { ok: false, issues: [{ code: 'not-json', where: '', message: 'this line is not JSON' }] };
  }
  const outcome = planFrom(json);
  if (outcome.ok) return outcome;
  const issues = outcome.issues.map((issue) => ({
    ...issue,
    where: planIssuePlace(issue),
    message: planIssueText(issue, units),
  }));
  return { ok: false, issues };
}

function parseJson(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}

function text(outcome: Outcome, at: number): string {
  if (outcome.ok) return planToText(outcome.plan, units);
  const lines = outcome.issues.map(({ where, message }) => `  ${where === '' ? '' : `${where}: `}${message}`);
  return `Line ${at} is no plan's input:\n${lines.join('\n')}\n`;
}
