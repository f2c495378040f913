/**
 * Processor time of the estimate over a logbook of 5,000 entries, the first run of a process and those after it: once over
 * seven years, the newest 400 days of which count, and once all within 400 days.
 */
import type { Entry } from '../../../src/core/log/schema.ts';
import { waterNow } from '../../../src/core/track/estimate.ts';
import { addition, dayTime, loggedValue, POOL, reading } from '../../core/log/samples.ts';
import { randomFrom } from '../../studio/random.ts';

const ENTRIES = 5000;
const RUNS = 9;

export function tellTimes(): void {
  tell('over seven years', 2555);
  tell('all within 400 days', 395);
}

function tell(name: string, days: number): void {
  const entries = logbookOf(days);
  const at = dayTime(days + 0.5);
  const millis = Array.from({ length: RUNS }, () => processorMillis(() => waterNow(entries, POOL, at)));
  const [first, ...later] = millis;
  const middle = later.sort((a, b) => a - b)[Math.floor(later.length / 2)] ?? NaN;
  console.log(
    `${ENTRIES} entries ${name}: first ${first!.toFixed(0)} ms, middle of those after ${middle.toFixed(0)} ms`,
  );
}

/** Two strips of five values in five entries, and doses of six products. */
function logbookOf(days: number): Entry[] {
  const { normal } = randomFrom(1);
  const agents = ['acid', 'chlorine', 'bicarbonate', 'chlorine', 'salt', 'stabilizer'] as const;
  return Array.from({ length: ENTRIES }, (_, i) => {
    const day = (i * days) / ENTRIES;
    if (i % 5 === 0 || i % 5 === 2) {
      return reading(day, [
        loggedValue('ph', 7.5 + 0.15 * normal(), 0.3),
        loggedValue('free-chlorine', Math.max(0.2, 2 + 0.7 * normal()), 1),
        loggedValue('total-alkalinity', 100 + 10 * normal(), 20),
        loggedValue('cyanuric-acid', 45 + 6 * normal(), 12),
        loggedValue('salt', 3000 + 200 * normal(), 450),
      ]);
    }
    return addition(day, agents[i % 6]!, { amount: 0.02, unit: i % 6 < 2 || i % 6 === 3 ? 'L' : 'kg' });
  });
}

function processorMillis(run: () => unknown): number {
  const before = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}
