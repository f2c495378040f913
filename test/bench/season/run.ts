// `npm run season [-- SEASONS] [--from SEED] [--only TEXT]`: seasons that nothing was set on, read by strips and followed by the estimate.
// `npm run season -- --time`: how long the estimate takes.
import { performance } from 'node:perf_hooks';
import { parseArgs } from 'node:util';
import { holdsAhead } from './ahead.ts';
import type { SeasonSettings } from './simulate.ts';
import { summarise, type Row } from './summary.ts';
import { tellTimes } from './time.ts';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    from: { type: 'string', default: '1' },
    only: { type: 'string', default: '' },
    time: { type: 'boolean', default: false },
  },
});
if (values.time) {
  tellTimes();
  process.exit();
}
const count = Number(positionals[0] ?? 60);
const from = Number(values.from);
const PLAIN = { sharedSteps: 0.1, statedSteps: 0.27, hasDropTest: false };
const KINDS: readonly (readonly [
  string,
  Partial<SeasonSettings> & Pick<SeasonSettings, 'sharedSteps' | 'statedSteps' | 'hasDropTest'>,
])[] = [
  ['strips share 0.1 steps', PLAIN],
  ['the same, one drop test', { sharedSteps: 0.1, statedSteps: 0.27, hasDropTest: true }],
  ['share 0.3, intervals say so', { sharedSteps: 0.3, statedSteps: 0.39, hasDropTest: false }],
  ['share 0.3, one drop test', { sharedSteps: 0.3, statedSteps: 0.39, hasDropTest: true }],
  ['share 0.3, intervals don’t', { sharedSteps: 0.3, statedSteps: 0.27, hasDropTest: false }],
  ['share 0.1, three upsets a season', { ...PLAIN, upsets: 3 }],
  ['20 kg of salt between readings by a meter', { ...PLAIN, saltTest: { kilograms: 20, readings: 1, gain: 0.0285 } }],
  ['20 kg, three readings each', { ...PLAIN, saltTest: { kilograms: 20, readings: 3, gain: 0.0285 } }],
  ['40 kg, three readings each', { ...PLAIN, saltTest: { kilograms: 40, readings: 3, gain: 0.0285 } }],
  ['20 kg, three, a meter checked to 1 %', { ...PLAIN, saltTest: { kilograms: 20, readings: 3, gain: 0.01 } }],
  ['40 kg, three, a meter checked to 1 %', { ...PLAIN, saltTest: { kilograms: 40, readings: 3, gain: 0.01 } }],
  ['80 kg, three, a meter checked to 1 %', { ...PLAIN, saltTest: { kilograms: 80, readings: 3, gain: 0.01 } }],
];
for (const [name, kind] of KINDS) {
  if (!name.includes(values.only)) continue;
  const started = performance.now();
  const rows = summarise(count, from, { photoSteps: 0.25, forgets: 0.1, upsets: 0, ...kind });
  console.log(`\n${name} (${((performance.now() - started) / 1000).toFixed(1)} s)`);
  for (const row of rows) console.log(format(row));
}

for (const monthlyRain of [53, 120, 300]) {
  if (!'30 days ahead'.includes(values.only)) continue;
  const rows = holdsAhead(count, from, monthlyRain, { photoSteps: 0.25, forgets: 0.1, upsets: 0, ...PLAIN });
  const held = rows.map(({ quantity, held: share }) => `${quantity} ${(100 * share).toFixed(1)} %`).join(', ');
  console.log(`\n30 days ahead, ${monthlyRain} mm of rain a month by the climate, n ${rows[0]!.count}: holds ${held}`);
}

function format({ quantity, held, width, error, count: n }: Row): string {
  return `${quantity.padEnd(18)} n ${String(n).padStart(5)}  holds ${(100 * held).toFixed(1)} %  width ${width.toFixed(2)}  error ${error.toFixed(2)}`;
}
