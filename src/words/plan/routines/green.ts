/** Green water as a loop. */
import type { Written } from './care.ts';

export const GREEN: Readonly<Record<string, Written>> = {
  'is-it-algae':
    'Make sure that it is algae: slime, or cloudy green. Clear green water without slime is metal, and chlorine makes that worse.',
  'dilute-first': ({ stabilizer }, show) =>
    `With ${show.plain(stabilizer!)} mg/L of stabilizer change part of the water first, a third at most at a time: it saves chlorine and days.`,
  'loop-ph': ({ to }, show) =>
    `pH first, to ${show.plain(to!)}: it is the last good reading for days, as high chlorine bleaches its pad.`,
  'loop-brush': 'Brush walls, steps, corners and behind the ladder: slime shields what is under it.',
  'loop-chlorine': ({ to }, show) =>
    `Test, and bring free chlorine up to ${show.plain(to!)} mg/L, in rounds where the pH can’t bear it at once. The plan has the amount.`,
  'loop-filter': ({ cartridge }) =>
    cartridge === undefined
      ? 'Pump and filter day and night; backwash whenever the gauge stands a quarter above clean, pump off before the valve turns.'
      : 'Pump and filter day and night; rinse the cartridge whenever the gauge stands a quarter above clean, pump off and pressure gone first.',
  'loop-again':
    'Again from the brush, every few hours by day, and at each dusk and dawn. Grey or milky blue is good: the algae are dead.',
  'overnight-test': ({ most }, show) =>
    `Overnight test: free chlorine at dusk and at dawn, cell off. If it loses more than ${show.plain(most!)} mg/L, something is still alive: go on.`,
  'loop-over': ({ combined }, show) =>
    `It is over when all three hold: the floor is clearly seen, no more is lost overnight, and combined chlorine is at ${show.plain(combined!)} mg/L or less. Then let the chlorine fall, test everything, and only then swim.`,
  'loop-cause':
    'Find out why: stabilizer too high for the chlorine, a cell that is scaled or cold, a pump that runs too short, a dead corner.',
  'give-up': ({ days }, show) =>
    `Give up after ${show.plain(days!)} days at the level without any change, or when the chlorine is gone within an hour again and again: change part of the water, or call somebody.`,
  'cell-off-meanwhile': 'The cell stays off meanwhile: it is slow, and so much chlorine does it no good.',
  'get-liquid-chlorine':
    'Get liquid chlorine enough for three days before you begin: to stop halfway is to begin again.',
};
