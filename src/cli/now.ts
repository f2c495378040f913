// `npm run --silent now -- LOGBOOK.json`: what the water of each pool in an exported logbook is, one JSON object a line.
import { parseArgs } from 'node:util';
import { readLogJson } from '../core/log/read-json.ts';
import { parseIso } from '../core/log/time.ts';
import { nextTest } from '../core/log/next-test.ts';
import type { Spans } from '../core/reading/spans.ts';
import { USUAL_SPANS } from '../core/reading/usual-spans.ts';
import { waterAhead, waterNow, type WaterNow } from '../core/track/estimate.ts';
import { readText } from './files.ts';
import { called, EXIT, print } from './output.ts';
import { problemText } from '../words/log.ts';

const USAGE = `Usage: ${called('now')} LOGBOOK.json [--at TIME]
LOGBOOK.json is what the logbook's page exports. TIME is a date or a time like 2026-07-14T18:00+02:00; the clock's time
when it is left out. For each pool of the file that has readings before it, a line of JSON: every quantity with its value
and 90 % interval, its last reading and how many readings and additions it rests on; what was learnt; what is odd; what to test next, and when.`;

/** A season of pictures is a few dozen megabytes. */
const MAX_LOG_BYTES = 300_000_000;

const { file, at } = readArguments();
process.exitCode = await run(file, at);

function readArguments(): { file: string; at: string } {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { at: { type: 'string' }, help: { type: 'boolean', short: 'h' } },
    });
    if (values.help) {
      console.log(USAGE);
      process.exit(EXIT.done);
    }
    const [path] = positionals;
    if (path === undefined || positionals.length > 1) throw new Error('Name one file, exported from the logbook.');
    return { file: path, at: momentOf(values.at) };
  } catch (error) {
    console.error(`${(error as Error).message}\n${USAGE}`);
    process.exit(EXIT.wrongUse);
  }
}

function momentOf(text: string | undefined): string {
  if (text === undefined) return new Date().toISOString();
  const parsed = parseIso(text, -new Date().getTimezoneOffset());
  if (!parsed) throw new Error(`--at takes a date or a time such as 2026-07-14T18:00+02:00, not '${text}'.`);
  return parsed.utc;
}

async function run(path: string, moment: string): Promise<number> {
  let text: string;
  try {
    text = await readText(path, MAX_LOG_BYTES);
  } catch (error) {
    console.error((error as Error).message);
    return EXIT.wrongUse;
  }
  const read = readLogJson(text);
  if (!read.ok) {
    console.error(`${path} is no logbook that can be read here (${read.failure}). Export one from the logbook's page.`);
    return EXIT.wrongUse;
  }
  for (const problem of read.problems) console.error(`Left aside: ${problemText(problem)}`);
  let found = 0;
  const worked = read.incoming.choices.find(({ key }) => key === 'plan.spans')?.value;
  const spans = (worked as Spans | undefined) ?? USUAL_SPANS;
  for (const pool of read.incoming.pools) {
    const { entries } = read.incoming;
    const now = waterNow(entries, pool, moment);
    if (!now) continue;
    found += 1;
    const own = entries.filter(({ poolId, time }) => poolId === pool.id && time <= moment);
    const next = nextTest(own, (quantity) => spans[quantity] ?? null, waterAhead(entries, pool, moment), moment);
    if (!(await print(JSON.stringify({ pool: pool.name, ...rounded(now), nextTest: next })))) return EXIT.partly;
  }
  if (found === 0) {
    console.error(`${path} holds no reading before ${moment}.`);
    return EXIT.partly;
  }
  return read.problems.length > 0 ? EXIT.partly : EXIT.done;
}

/** Four figures: more would be noise. */
function rounded(now: WaterNow): WaterNow {
  return JSON.parse(
    JSON.stringify(now, (_, value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(4)) : value)),
  ) as WaterNow;
}
