/** Green water as a loop: until it is clear, holds overnight and has no combined chlorine, or until it is given up. */
import { algaeLevel } from '../plan/steps/chlorine.ts';
import type { Plan } from '../plan/types.ts';
import { course, item, type Course } from './item.ts';

/** mg/L of stabilizer from which changing water first saves chlorine and days. Common practice, no source. */
const DILUTE_FIRST_ABOVE = 100;

export function greenWater({ input: { pool, shelf }, now, targets }: Plan): Course {
  const { cyanuricAcid, combinedChlorine } = now.water;
  const level = algaeLevel(cyanuricAcid);
  return course(
    [
      item('is-it-algae'),
      cyanuricAcid >= DILUTE_FIRST_ABOVE && item('dilute-first', { stabilizer: cyanuricAcid }),
      item('clear-debris'),
      item('loop-ph', { to: targets.ph.low }),
      item('loop-brush'),
      item('loop-chlorine', { to: level }),
      item('loop-filter', pool.filter?.kind === 'cartridge' ? { cartridge: 1 } : {}),
      item('loop-again'),
      item('overnight-test', { most: 1 }),
      item('loop-over', { combined: targets['combined-chlorine'].high, now: combinedChlorine }),
      item('loop-cause'),
      item('give-up', { days: 3 }),
      pool.chlorination === 'chlorinator' && item('cell-off-meanwhile'),
      !shelf.some(({ product }) => product === 'sodium-hypochlorite' || product === 'household-bleach') &&
        item('get-liquid-chlorine'),
    ],
    ['see-the-bottom', 'acid-and-chlorine', 'never-mix', 'protection', 'children-away', 'chlorine-above-limit'],
  );
}
