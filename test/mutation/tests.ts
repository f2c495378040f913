/** The unit tests that judge a folder of `src/core`. */
import { globSync } from 'node:fs';

/** Rounds of many seconds, which every unnoticed change would wait for. They find other things than these. */
const TOO_SLOW = [
  // Random plans and files.
  'water/plan/properties.test.ts',
  'water/plan/truths.test.ts',
  'log/hostile-files.test.ts',
  // Makes its pictures anew; headers.test.ts beside it has them byte by byte.
  'photo/judge-file.test.ts',
  // Times the code, which here counts its own statements too.
  'water/equilibrium-speed.test.ts',
  // Whole simulated owners, phones and lights, judged by how many of them come out right.
  'reading/another-print.test.ts',
  'reading/poor-prints.test.ts',
  'scale/strip-base.test.ts',
];

/** A round ends with the first failure, so what takes longest comes last: random waters, whole plans. */
const LATE = ['water/moves/laws.test.ts', 'water/households/', 'water/plan/'];

/**
 * Those of the same folder alone: what is noticed from afar only, as by a photo read wrongly, is a gap too. And it
 * would take days: tests of photos take seconds for each change.
 */
export function testsOf(folder: string): string[] {
  return globSync(`test/core/${folder}/**/*.test.ts`)
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => !TOO_SLOW.some((slow) => path.endsWith(slow)))
    .sort((a, b) => lateness(a) - lateness(b) || (a < b ? -1 : 1));
}

function lateness(path: string): number {
  return LATE.findIndex((late) => path.includes(late));
}
