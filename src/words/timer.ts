/** What the dip timer says. */
import type { DipPhase, DipTimes } from '../core/dip/phases.ts';

export interface PhaseWords {
  /** In the list of steps. */
  readonly step: string;
  /** Large, above the time left. */
  readonly word: string;
  /** One or two sentences: what to do. */
  readonly todo: string;
  /** What the time left is until. */
  readonly until: string;
}

const PHASES: Record<DipPhase, PhaseWords> = {
  dip: {
    step: 'dip',
    word: 'Dip',
    todo: 'Hold the strip under water, every pad covered.',
    until: 'until you lift it',
  },
  lift: {
    step: 'lift',
    word: 'Out, and onto the card',
    todo: 'Shake the drops off once and lay the strip in the grey slot of the card, pads up.',
    until: 'for that',
  },
  wait: {
    step: 'wait',
    word: 'Wait',
    todo: 'The colours are still growing. Get the camera ready above the card.',
    until: 'until the photo',
  },
  read: {
    step: 'photo',
    word: 'Take the photo',
    todo: 'The colours stand for the water now.',
    until: 'for the photo',
  },
  past: {
    step: 'past',
    word: 'The window is past',
    todo: 'Colours drift from here on. Dip a new strip for a reading you can trust.',
    until: 'since it closed',
  },
};

export const READ_TODO = 'Your photo has been read. There is time for another.';
export const READ_PAST = 'Colours drift from here on. Another photo wants a new strip.';

export function phaseWords(phase: DipPhase, isRead = false): PhaseWords {
  const words = PHASES[phase];
  if (!isRead) return words;
  if (phase === 'read') return { ...words, word: 'Read', todo: READ_TODO };
  return phase === 'past' ? { ...words, todo: READ_PAST } : words;
}

/** Whole seconds, so that none is shown that isn't there. */
export function secondsText(seconds: number): string {
  const whole = Math.max(0, Math.ceil(seconds - 1e-6));
  if (whole < 100) return `${whole} s`;
  return `${Math.floor(whole / 60)} min ${String(whole % 60).padStart(2, '0')} s`;
}

/** The scale's times in a sentence. */
export function timesText({ dipSeconds, readAfterSeconds, readBeforeSeconds }: DipTimes): string {
  const dip = dipSeconds > 0 ? `${secondsText(dipSeconds)} in the water` : 'Dip it and lift it straight out';
  return `${dip}, then the photo ${windowText({ readAfterSeconds, readBeforeSeconds })} after it has come out.`;
}

/** "30 to 75 s"; the unit of both ends where they differ. */
export function windowText({
  readAfterSeconds,
  readBeforeSeconds,
}: Pick<DipTimes, 'readAfterSeconds' | 'readBeforeSeconds'>): string {
  const [from, to] = [secondsText(readAfterSeconds), secondsText(readBeforeSeconds)];
  const isAlike = !from.includes('min') && !to.includes('min');
  return `${isAlike ? from.replace(' s', '') : from} to ${to}`;
}

/** For a screen reader, once a step. */
export function announcement(phase: DipPhase, leftSeconds: number | null, isRead: boolean): string {
  const { word, todo, until } = phaseWords(phase, isRead);
  const left = leftSeconds === null ? '' : ` ${secondsText(leftSeconds)} ${until}.`;
  return `${word}.${left} ${todo}`;
}

export const NO_SINCE_DIP = 'Give the seconds from the dip to the photo as a number, at most a day, or leave it empty.';
