/** How long work takes, warm. */
import { median } from './section.ts';

/**
 * Medians of several rounds of each work, the works taking turns so that a busy moment falls on all of them.
 * @param works each does its whole job once; the first `warm` rounds don't count
 * @returns ms of each, in the order given
 */
export function inTurns(works: readonly (() => unknown)[], rounds: number, warm = 3): number[] {
  const times = works.map((): number[] => []);
  for (let round = 0; round < warm + rounds; round++)
    works.forEach((work, i) => {
      const started = performance.now();
      work();
      if (round >= warm) times[i]!.push(performance.now() - started);
    });
  return times.map(median);
}
