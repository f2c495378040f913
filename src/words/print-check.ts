/** What the check of a print says: in words, with the number, and what to do. */
import type { Finding, PrintCheck, Verdict } from '../core/reading/check-print.ts';
import { numberText } from './numbers.ts';

const NAMES: Readonly<Record<Finding['what'], string>> = {
  rule: 'Size',
  greys: 'Greys',
  patches: 'Colours',
  evenness: 'Evenness',
  gloss: 'Gloss',
};

const REMEDIES: Readonly<Record<Finding['what'], string>> = {
  rule: 'Print it again at 100 %, with no “fit to page”.',
  greys: 'The printer mixes its greys from colours. Choose “black ink only”, or print the black card.',
  patches: 'An ink may be low or a nozzle blocked, or the print has faded. Clean the heads and print a new card.',
  evenness: 'Ink lies unevenly, or something shades or stains the card. Let it dry, and photograph it in even light.',
  gloss: 'Something mirrors. Use plain matt paper, no film, and keep windows and lamps from behind the phone.',
};

export const VERDICTS: Readonly<Record<Verdict, string>> = { good: 'good', doubtful: 'doubtful', bad: 'poor' };

/** @returns the name, what was found, and what to do where it isn't good */
export function findingText({ what, value, verdict }: Finding): { name: string; found: string; remedy: string } {
  return { name: NAMES[what], found: FOUND[what](value), remedy: verdict === 'good' ? '' : REMEDIES[what] };
}

const FOUND: Readonly<Record<Finding['what'], (value: number) => string>> = {
  rule: (value) => `the rule measures ${numberText(value, { decimals: 1 })} mm of 50`,
  greys: (value) => `${numberText(value, { decimals: 1 })} CIEDE2000 from grey; 1.5 may be`,
  patches: (value) => (value === 0 ? 'all where they should be' : `${value} of 18 far from where they should be`),
  evenness: (value) => `patches agree within ${numberText(value, { decimals: 1 })} CIEDE2000; 1.5 may be`,
  gloss: (value) => `glints on ${Math.round(100 * value)} % of the worst dark patch; 12 % may be`,
};

/** What phone and print are worth, in steps of a scale. */
export function worthText({ left }: PrintCheck, scaleName: string, step: number): string {
  if (!left) return 'With two photos or more of the colour card, what phone and print are worth can be told too.';
  const steps = numberText(left.deltaE / step, { decimals: 2 });
  const [after, before] = [left.deltaE, left.withoutMap].map((value) => numberText(value, { decimals: 1 }));
  const worth =
    left.deltaE < 0.35 * step ? 'That is good.' : left.deltaE < 0.7 * step ? 'That is usual.' : 'That is much.';
  return `From place to place your phone shows a patch ${before} CIEDE2000 apart, and ${after} once the card has put it right: ${steps} of a step between neighbouring blocks of “${scaleName}”. ${worth}${left.deltaE < 0.7 * step ? '' : ' Keep to open shade, with no filter or portrait mode, and hold the phone straight above the card.'}`;
}

export const CHECK = {
  photos: 'Photos of the empty card, one after the other or all three at once',
  rule: 'A ruler along the printed rule shows, mm (if you have one at hand)',
  startAgain: 'Start again',
  looking: 'Looking for the card…',
  failed: 'The reader stopped before it was done. Try the photo again.',
  again: 'Start again with the first photo.',
  twoPrints: {
    wrong: 'These photos show two different prints of the card.',
    remedy: 'Press “Start again”, and take all three of one card.',
  },
  show: 'Tell us what reality looks like, if you wish',
  holds:
    'This file holds the colours of the card’s patches and what was found, and nothing else: no picture, no time, no place, nothing about you or your device, not even the card’s mark. It goes nowhere by itself. You can save it, look at it, and send it to the people who make Dipwise.',
  save: 'Save the file',
  seen: (count: number, of: number): string =>
    count < of ? `Photo ${count} of ${of} is read. Take the next one in another place.` : 'All three photos are read.',
} as const;

/** What the check changes in readings on this device. */
export function noiseText(sigma: number): string {
  return sigma < 0.05
    ? 'Your phone is as sure as usual: readings stay as they are.'
    : `Readings on this phone are wider from now on, by ${numberText(sigma, { decimals: 1 })} CIEDE2000 more doubt.`;
}
