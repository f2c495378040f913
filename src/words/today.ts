/** What the home page says to somebody who has been here before. */
import type { Moment, SwimToday } from '../core/progress/swim-today.ts';
import { pastText } from './kept-plan.ts';
import { capitalised, listText } from './grammar.ts';
import { IF_BOTTOM_VISIBLE, swimText, verdictText } from './plan/sentences.ts';
import { quantityName } from './quantities.ts';

export const TODAY = {
  lastReading: 'The last reading',
  nextTest: 'Next test',
  toLog: 'Everything in the logbook',
  practice: 'With a practice scale: it says nothing about real water.',
} as const;

/** At most so many reasons stand on the home page; the plan has all. */
const MAX_REASONS = 2;

/** The answer and, in smaller type, what it rests on. */
export function swimTodayText(swim: SwimToday, now: Date): { readonly answer: string; readonly because: string } {
  switch (swim.state) {
    case 'none':
      return { answer: 'Nothing is known of the water yet.', because: 'Read a strip, or write values down by hand.' };
    case 'old': {
      const name = quantityName(swim.quantity);
      const last =
        swim.last === null
          ? 'was never measured'
          : `was last measured ${pastText(swim.last.time, now, swim.last.zoneMinutes)}`;
      return {
        answer: 'Whether to swim today, nobody can say.',
        because: `${capitalised(name)} ${last}, and it changes within hours: read a strip first.`,
      };
    }
    case 'judged': {
      const { verdict, at, since } = swim;
      const reasons = verdict.reasons.slice(0, MAX_REASONS).map(verdictText);
      const look = verdict.onlyIfBottomVisible ? [IF_BOTTOM_VISIBLE] : [];
      return {
        answer: swimText(verdict.swim),
        because: [...reasons, ...look, measuredText(at, now), ...sinceText(since)].join(' '),
      };
    }
  }
}

function measuredText({ time, zoneMinutes }: Moment, now: Date): string {
  return `Measured ${pastText(time, now, zoneMinutes)}.`;
}

function sinceText(since: readonly { readonly product: string }[]): string[] {
  if (since.length === 0) return [];
  const products = [...new Set(since.map(({ product }) => product))];
  return [
    `Since then went in: ${listText(products)}. Wait as its label and the plan say, and test again before anybody swims.`,
  ];
}

/** "29 November at 10:32" */
export function readAtText({ time, zoneMinutes }: Moment, now: Date): string {
  return capitalised(pastText(time, now, zoneMinutes).replace(/^on /, ''));
}
