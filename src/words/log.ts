/** The logbook's sentences and words: one place. */
import type { StoreFailure } from '../core/log/store-failure.ts';
import type { FileFailure, FileProblem } from '../core/log/incoming.ts';
import type { NextTest } from '../core/log/next-test.ts';
import { ROUTINE_DAYS } from '../core/pool/test-times.ts';
import { quantityName, quantityTitle } from './quantities.ts';
import type { QuantityChange } from '../core/log/trends.ts';
import { dateText, momentText, shortDayText } from './dates.ts';
import type { Fault } from '../core/fault.ts';
import { listText, plural } from './grammar.ts';
import { numberText } from './numbers.ts';
import type { Agent, AmountUnit, EntryKind, Sky } from '../core/log/schema.ts';

/** In every case nothing was written; what to do instead is said with it. */
const FAILURES: Record<StoreFailure, string> = {
  full: 'There is no room left for this on the device, so nothing was changed. Save a copy of the logbook to a file, then empty the bin below or free some space.',
  conflict: 'This was changed in another tab meanwhile, so nothing was written over. The page now shows how it stands.',
  'read-only': 'This logbook was written by a newer Dipwise. It is left as it is; save a copy, or load the newer page.',
  unsound:
    'Something in it lies outside what the logbook can hold, so nothing was changed. Look at its numbers and names once more.',
  broken: 'The browser closed the logbook, so nothing was changed. Load the page again.',
};

export function failureText(failure: StoreFailure): string {
  return FAILURES[failure];
}

const FILE_FAILURES: Record<FileFailure, string> = {
  empty: 'The file is empty.',
  'not-text':
    'The file isn’t text in UTF-8. If a spreadsheet wrote it, save it there once more as “CSV UTF-8”, then try again.',
  'not-a-logbook':
    'The file isn’t a logbook: it is neither a Dipwise file nor a table with a date and columns such as pH or chlorine in its first row.',
  'other-version': 'The file says it is a logbook, but of no version there ever was.',
  'newer-version': 'The file was written by a newer Dipwise. Load this page again with a network, then try once more.',
};

export function fileFailureText(failure: FileFailure): string {
  return FILE_FAILURES[failure];
}

export const NOTICES = {
  memory:
    'This browser keeps nothing here, perhaps because it is set to or the window is private. What you write down lasts until the page is closed: save a copy before that.',
  newer:
    'This device holds a logbook written by a newer Dipwise. It is left untouched and can’t be shown by this older page. Load the page again with a network; or save a copy of everything as it is.',
  blocked: 'Another tab has an older Dipwise open. Close that tab, and the logbook opens here.',
  silent:
    'The browser doesn’t open the logbook. What you write down lasts until the page is closed. Close other tabs of Dipwise and load the page again; if that doesn’t help, start the browser again.',
  incomplete:
    'The logbook on this device is damaged: a part of it is missing, so it can’t be shown. Save what is there to a file; then begin it afresh, and bring your last copy in. Until then, what you write down lasts until the page is closed.',
  emptied:
    'The browser has thrown the logbook away while this page was open, as it may when space runs short or site data are cleared.',
  'taken-over': 'A newer Dipwise has been opened in another tab. Load this page again before you write anything down.',
} as const;

export function lostText(entries: number, last: string): string {
  const many = plural(entries, 'One entry was', `${numberText(entries)} entries were`);
  return `${many} kept here, the last written on ${dateText(last)}, and the browser has cleared them away, as it may when space runs short. If you saved a copy, bring it in below.`;
}

export function clockText(latest: string): string {
  return `This device’s clock stands before ${momentText(latest)}, when something was last written down here. Check the clock: entries take their time from it.`;
}

export function draftText(note: string): string {
  return `An entry was deleted in another tab while you wrote a note to it. The note was: “${note}”`;
}

export function setAsideText(count: number): string {
  const what = count === 1 ? 'One thing in the logbook can’t be read' : `${count} things in the logbook can’t be read`;
  return `${what}, perhaps after a fault of the device. All else is shown; what can’t be read stays where it is.`;
}

export const KINDS: Record<EntryKind, string> = {
  reading: 'Reading',
  addition: 'Addition',
  note: 'Note',
  weather: 'Weather',
  plan: 'Plan',
};

/** A letter for the chart, and the words. */
export const AGENT_WORDS: Record<Agent, { readonly letter: string; readonly words: string }> = {
  chlorine: { letter: 'C', words: 'chlorine' },
  acid: { letter: 'A', words: 'acid (lowers pH)' },
  base: { letter: 'B', words: 'soda ash or another base (raises pH)' },
  bicarbonate: { letter: 'K', words: 'bicarbonate (raises alkalinity)' },
  calcium: { letter: 'H', words: 'calcium (raises hardness)' },
  stabilizer: { letter: 'Z', words: 'stabilizer (cyanuric acid)' },
  salt: { letter: 'S', words: 'salt' },
  'chlorine-remover': { letter: 'R', words: 'chlorine remover' },
  water: { letter: 'W', words: 'fresh water' },
  other: { letter: 'O', words: 'something else' },
};

export const SKY_WORDS: Record<Sky, string> = {
  clear: 'clear',
  'some-cloud': 'some cloud',
  overcast: 'overcast',
  rain: 'rain',
  storm: 'storm',
};

export const UNIT_WORDS: Record<AmountUnit, string> = {
  mL: 'mL',
  L: 'L',
  g: 'g',
  kg: 'kg',
  'fl oz': 'US fl oz',
  gal: 'US gal',
  oz: 'oz by weight',
  lb: 'lb',
};

export function bytesText(bytes: number): string {
  if (bytes < 1_000_000) return `${Math.max(1, Math.round(bytes / 1000))} kB`;
  const [size, unit] = bytes < 1_000_000_000 ? [bytes / 1e6, 'MB'] : [bytes / 1e9, 'GB'];
  return `${numberText(size, { decimals: 1 })} ${unit}`;
}

const FAULTS: Readonly<Record<string, string>> = {
  'control-characters': 'the text holds characters that no text has',
  'no-name': 'a name is needed',
  'value-outside-interval': 'an interval must hold its value',
  'ends-first': 'a span must not end before it begins',
  'not-a-jpeg': 'it is not a JPEG picture',
  'not-a-number': 'it must be a number',
  'too-small': 'it is too small, or too short',
  'too-large': 'it is too large, or too long',
};

/** Which part of a file is left aside, and why. */
export function problemText({ where, fault }: FileProblem): string {
  return `${where.what} ${where.at}: ${entryFault(fault)}`;
}

/** What is wrong with something of a logbook's file, and in which of its fields. */
export function entryFault({ path, code, allowed, facts }: Fault): string {
  if (code === 'far-date') {
    return `its date, ${String(facts?.['date'])}, is not between 1990 and tomorrow: correct it in the file`;
  }
  if (code === 'not-a-date') return `“${String(facts?.['text'])}” is no date, so the line is left out`;
  if (code === 'not-a-value') {
    return `“${String(facts?.['text'])}” under “${String(facts?.['column'])}” is no value it can have, and is left out`;
  }
  if (code === 'unknown-parameter') {
    return `nothing is known of “${String(facts?.['text'])}”: it is left out, the other values stay`;
  }
  const what = allowed ? `it must be ${listText(allowed, 'or')}` : (FAULTS[code] ?? 'it is not what it should be');
  return path.length === 0 ? what : `${path.join('.')}: ${what}`;
}

export const CHANGES: Record<QuantityChange['direction'], string> = {
  up: 'risen',
  down: 'fallen',
  unclear: 'no clear change',
};

/** "risen since 26 Nov" */
export function changedText({ direction, before }: QuantityChange): string {
  return `${CHANGES[direction]} since ${shortDayText(before.time)}`;
}

/** Why the next test is due when it is. */
export function nextTestText({ quantity, reason, overdue }: NextTest): string {
  const name = quantityTitle(quantity);
  const when = overdue ? 'now' : 'then';
  if (reason === 'plan')
    return `The plan you keep asks for it: all its steps are done, and ${quantityName(quantity)} tells first how they landed.`;
  if (reason === 'dose')
    return `Something that moves ${quantityName(quantity)} has gone in since its last test: test it ${when}.`;
  if (reason === 'drift') return `${name} may have left its span by ${when}, as far as the log can tell.`;
  const days = ROUTINE_DAYS[quantity];
  return `${name} is tested every ${days} days in a pool in use (common practice, no source); test more often when many bathe or after rain.`;
}
