/** How a value is said on the reading sheet. */
import { capitalised, listText } from './grammar.ts';
import { judgementText } from './reading.ts';
import { quantityName, quantityTitle } from './quantities.ts';
import type { ReadOutcome, WarningCode } from '../core/reading/reading.ts';
import type { Eyes } from '../core/settings.ts';
import { neighboursByEye } from '../core/scale/by-eye.ts';
import { judgementOf } from '../core/reading/measured.ts';
import { unitOf } from '../core/measurement/quantities.ts';
import { formatInterval, formatMeasured, formatValue } from './numbers.ts';
import { METHOD_WORDS } from './methods.ts';
import { timeText } from './dates.ts';
import { type Entry, estimatesOf } from '../core/reading/entry.ts';

/** "Read at 10:32." */
export function readText(time: Date, photos: number): string {
  return `Read at ${timeText(time)}${photos > 1 ? ` from ${photos} photos together` : ''}.`;
}

export const TARGETS = {
  own: 'The hatched spans are those that the plan last worked out for your pool.',
  guide:
    'The hatched spans are a guide for a home pool with a liner and a salt chlorinator. The plan works out the ones for yours.',
  truths: 'The true values are those that this practice photo was simulated with.',
} as const;

export const ANOTHER_PHOTO = {
  why: 'Another photo of this strip, taken while its time lasts, makes the values a little surer: noise, glare and the phone’s own rendering differ from photo to photo.',
  file: 'Add another photo of this strip',
  camera: 'Take another with the camera',
} as const;

/** The large number: "7.4", "10 or more", "7.4 or 8.2"; a dash when there is none. */
export function valueText(entry: Entry): string {
  const { pad, byHand } = entry;
  if (byHand !== null) return formatValue(byHand.value);
  if (pad.value === null) return '–';
  if (pad.offScale === 'above') return `over ${formatValue(pad.value)}`;
  if (pad.offScale === 'below') return `under ${formatValue(pad.value)}`;
  const unit = unitOf(pad.quantity);
  const shown = formatMeasured(pad.value, unit);
  return pad.alternative ? `${shown} or ${formatMeasured(pad.alternative.value, unit)}` : shown;
}

/** pH has no unit to show. */
export function unitText({ pad }: Entry): string {
  const unit = unitOf(pad.quantity);
  return unit === 'pH' ? '' : unit;
}

/** The word beside the value, with its hedge, and whether it asks for attention. */
export function wordFor(entry: Entry): { text: string; marked: boolean } | null {
  const judgement = judgementOf(entry);
  return (
    judgement && { text: judgementText(judgement), marked: !(judgement.word === 'in-range' && !judgement.otherWord) }
  );
}

/** The mark on a value whose photo was taken outside the reading window; none on a value by hand. */
export function timingMark({ timing, byHand }: Entry): string {
  if (timing === null || byHand !== null) return '';
  return timing === 'read-early' ? 'read too early' : 'read too late';
}

/** The interval in short, beside the word: "7.3 to 7.7", "8 or more"; nothing where there is none. */
export function spanText(entry: Entry): string {
  const { pad, byHand } = entry;
  const unit = unitOf(pad.quantity);
  const [first, second] = estimatesOf(entry);
  if (!first || (byHand === null && pad.offScale !== null)) return '';
  const span = formatInterval(first.low, first.high, unit);
  if (second) return `${span}, or ${formatInterval(second.low, second.high, unit)}`;
  if (byHand === null && pad.openAbove) return `${formatMeasured(first.low, unit)} or more`;
  if (byHand === null && pad.openBelow) return `${formatMeasured(first.high, unit)} or less`;
  return span;
}

/** What must be known of a value besides its interval; nothing of an ordinary one. */
export function caveatText(entry: Entry): string {
  const { pad, byHand } = entry;
  const isPlain = pad.offScale === null && pad.value !== null && !pad.alternative;
  return byHand === null && isPlain ? '' : intervalText(entry);
}

/** Why an interval ends at a block with "or more"; nothing of one that is closed. */
export function openText(entry: Entry): string {
  const { openAbove, openBelow, offScale } = entry.pad;
  return caveatText(entry) === '' && offScale === null && (openAbove || openBelow) ? intervalText(entry) : '';
}

/** The whole strip in a line: "Three in range, free chlorine perhaps low." */
export function summaryText(entries: readonly Entry[]): string {
  const judged = entries.map((entry) => ({ entry, judgement: judgementOf(entry) }));
  const fine = judged.filter(({ judgement }) => judgement?.word === 'in-range' && !judgement.otherWord);
  const rest = judged.filter((one) => one.judgement !== null && !fine.includes(one));
  const isSure = fine.every(({ judgement }) => judgement!.isSure !== false);
  const count = fine.length === entries.length ? 'all' : (COUNTS[fine.length] ?? String(fine.length));
  const head = fine.length === 0 ? [] : [`${count} ${isSure ? '' : 'likely '}in range`];
  const others = rest.map(({ entry, judgement }) => `${quantityName(entry.pad.quantity)} ${judgementText(judgement!)}`);
  const said = [...head, ...others];
  return said.length === 0 ? '' : `${capitalised(said.join(', '))}.`;
}

const COUNTS = ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

/** How good a photo was, in a word and what it rests on. */
export function photoGradeText({ warnings }: Pick<ReadOutcome, 'warnings'>): string {
  const doubts = warnings.flatMap((code) => PHOTO_DOUBTS[code] ?? []);
  if (doubts.length === 0) return 'Good: even light, no glare, colours agree.';
  return `${doubts.length === 1 ? 'Fair' : 'Poor'}: ${listText([...new Set(doubts)])}.`;
}

/** What a warning says of the photo itself; those about print, strip and time say nothing of it. */
const PHOTO_DOUBTS: Readonly<Partial<Record<WarningCode, string>>> = {
  'uneven-light': 'uneven light',
  'shadow-edge': 'a shadow’s edge',
  'mixed-light': 'two kinds of light',
  'glare-on-pad': 'glare on a pad',
  'pad-clipped': 'too much light',
  'colour-filter': 'a tint over it all',
  'greys-not-neutral': 'tinted greys',
  'poor-fit': 'greys that don’t agree',
  'photos-disagree': 'photos that tell different values',
};

/** What the interval says in words. */
export function intervalText(entry: Entry): string {
  const { pad, byHand } = entry;
  const unit = unitOf(pad.quantity);
  const [first, second] = estimatesOf(entry);
  if (byHand !== null && first) {
    return `Entered by hand${byHand.method === 'unsaid' ? '' : `, measured ${METHOD_WORDS[byHand.method]}`}: likely ${formatInterval(first.low, first.high, unit)}.`;
  }
  if (!first) return 'The pad’s colour is near no part of this scale, so no value is given.';
  if (pad.offScale === 'above') return 'Beyond the last block: the true value may be far higher.';
  if (pad.offScale === 'below') return 'Before the first block: the true value is lower still.';
  const span = formatInterval(first.low, first.high, unit);
  if (!second && pad.openAbove)
    return `Likely ${formatMeasured(first.low, unit)} or more: this near the last block, higher values look the same.`;
  if (!second && pad.openBelow)
    return `Likely ${formatMeasured(first.high, unit)} or less: this near the first block, lower values look the same.`;
  if (!second) return `Likely ${span}.`;
  return `The colour fits two places on the scale: ${span}, or ${formatInterval(second.low, second.high, unit)}.`;
}

export function targetText({ target }: Entry): string {
  return target ? `Should be ${formatValue(target.low)} to ${formatValue(target.high)}.` : '';
}

/** Which blocks in the interval's reach look alike to the visitor's eyes, where the settings say what eyes they are. */
export function eyesText(entry: Entry, eyes: Eyes): string {
  const [first] = estimatesOf(entry);
  if (!first || eyes === 'full') return '';
  const alike = neighboursByEye(entry.scalePad, { deficiency: eyes, strength: 1 })
    .filter(({ from, to, verdict }) => verdict !== 'apart' && from <= first.high && to >= first.low)
    .map(({ from, to }) => `${formatValue(from)} and ${formatValue(to)}`);
  return alike.length === 0 ? '' : `By eye you might not tell ${alike.join(', or ')} apart.`;
}

/** What a practice photo was simulated with; null for a real photo. */
export function truthText({ truth }: Entry): string | null {
  return truth === null ? null : `true ${formatValue(truth)}`;
}

/** The text alternative of the ribbon. */
export function ribbonText(entry: Entry): string {
  const { pad, scalePad } = entry;
  const first = scalePad.blocks[0]!.value;
  const last = scalePad.blocks.at(-1)!.value;
  const value = [valueText(entry), unitText(entry)].filter(Boolean).join(' ');
  const scale = `Scale from ${formatValue(first)} to ${formatValue(last)}.`;
  const mark = timingMark(entry);
  return [
    `${quantityTitle(pad.quantity)} ${value}${mark && `, ${mark}`}.`,
    intervalText(entry),
    targetText(entry),
    scale,
  ]
    .filter(Boolean)
    .join(' ');
}
