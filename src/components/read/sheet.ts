/** The reading sheet: the flattened card, and a ribbon row for every pad. */
import { handOver } from '../../browser/handover.ts';
import type { Unkept } from '../../browser/unkept.ts';
import type { PadQuantity } from '../../core/measurement/quantities.ts';
import { anotherPrintMessage, warningMessage } from '../../words/reading.ts';
import type { ReadOutcome } from '../../core/reading/reading.ts';
import { usedScale } from '../../core/reading/measured.ts';
import { judgeTiming, withTiming } from '../../core/reading/timing.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { Seen } from '../../vision/messages.ts';
import type { Pixels } from '../../vision/pixels.ts';
import { h } from '../dom.ts';
import { keepButton } from '../keep/keep-button.ts';
import type { ReadingToKeep } from '../keep/reading-entry.ts';
import { PRACTICE_NOTE } from '../../words/methods.ts';
import { anotherPhoto, type OnAnother } from './another-photo.ts';
import { cardPicture, lettersOf } from '../photo/card-picture.ts';
import { type Entry, measurementOf } from '../../core/reading/entry.ts';
import { padRow } from './pad-row.ts';
import { printButton } from './print-button.ts';
import { reasonLine } from './reasons.ts';
import { sinceDipField } from './since-dip.ts';
import { teachButton } from './teach-button.ts';
import type { Spans } from '../../core/reading/spans.ts';
import { jpegOf, waitingRoom } from './waiting.ts';
import { photoGradeText, readText, summaryText, TARGETS } from '../../words/sheet.ts';
import { numberText } from '../../words/numbers.ts';

/** What a practice photo was simulated with; nothing for a real one. */
export type Truth = Partial<Record<PadQuantity, number>>;

export interface SheetData {
  readonly outcome: ReadOutcome;
  readonly scale: StripScale;
  readonly flat: Pixels | null;
  /** Left out where the sheet comes back: they don't wait. */
  readonly seen?: Seen | null;
  readonly millis: { readonly find: number; readonly read: number };
  readonly time: Date;
  /** From the end of the dip to the photo; null where nothing timed it. */
  readonly sinceDipSeconds: number | null;
  readonly planUrl: string;
  readonly targets: Spans;
  /** Whether the targets are those of the visitor's own pool. */
  readonly ownTargets: boolean;
  readonly truth: Truth;
  /** Where the sheet comes back: what was entered on it before. */
  readonly before?: Pick<Unkept, 'byHand' | 'water' | 'note' | 'picture'>;
  /** Where it waits until it is kept; in this tab where nothing else is said. @returns whether it can */
  readonly onHold?: (reading: Unkept) => boolean;
  readonly onDiscard: () => void;
  /** Null where it takes no other photo of its strip. */
  readonly onAnother: OnAnother | null;
}

export function readingSheet(data: SheetData): HTMLElement {
  const { scale, flat, time } = data;
  let { sinceDipSeconds } = data;
  let outcome = withTiming(data.outcome, scale, sinceDipSeconds);
  const entries = entriesOf(outcome, data);
  const letters = lettersOf(outcome.places);
  const reading = () => ({ pads: entries, outcome, scale, time, sinceDipSeconds });
  const fit = fitLine(data, reading);
  const keep = keepButton({
    reading,
    picture: () => jpegOf(data),
    typed: data.before ?? { water: '', note: '' },
    onWaiting: waitingRoom(data, () => ({ entries, sinceDipSeconds })),
    onDiscard: data.onDiscard,
  });
  const summary = summaryLine(entries);
  const pads = padRows(entries, data, () => {
    summary.say();
    keep.onCorrected();
    fit.look();
  });
  // The logbook can wait until the values stand there.
  setTimeout(fit.look);
  const warnings = h('div', {}, ...warningList(outcome, scale, letters));
  const setTime = (seconds: number | null) => {
    sinceDipSeconds = seconds;
    outcome = withTiming(data.outcome, scale, seconds);
    warnings.replaceChildren(...warningList(outcome, scale, letters));
    entries.forEach((entry, i) => (entries[i] = { ...entry, timing: judgeTiming(scale, seconds) }));
    pads.redraw();
    keep.onCorrected();
  };
  return h(
    'section',
    { class: 'reading-sheet', 'aria-labelledby': 'sheet-title' },
    h('h2', { id: 'sheet-title', tabindex: -1 }, 'What the strip says'),
    summary.element,
    h('p', { class: 'hint' }, `${scale.name}. ${readText(time, outcome.together?.length ?? 1)}`),
    scale.origin === 'practice' ? h('p', { class: 'wrong invented' }, PRACTICE_NOTE) : null,
    warnings,
    fit.element,
    printButton(() => entries, data),
    h(
      'div',
      { class: 'sheet-columns' },
      h(
        'div',
        {},
        pads.list,
        spansNote(data),
        // A practice photo was dipped nowhere.
        isPractice(data) ? null : sinceDipField(scale, sinceDipSeconds, setTime),
        toPlan(entries, data),
        keep.element,
        data.onAnother && anotherPhoto(data.onAnother),
      ),
      h('div', { class: 'sheet-picture' }, flat && cardPicture(flat, outcome.pads, outcome.places), quality(data)),
    ),
  );
}

function isPractice({ truth }: SheetData): boolean {
  return Object.keys(truth).length > 0;
}

function spansNote(data: SheetData): HTMLElement {
  const truths = isPractice(data) ? ` ${TARGETS.truths}` : '';
  return h('p', { class: 'hint' }, (data.ownTargets ? TARGETS.own : TARGETS.guide) + truths);
}

function summaryLine(entries: readonly Entry[]): { readonly element: HTMLElement; readonly say: () => void } {
  const element = h('p', { class: 'sheet-summary' });
  const say = () => {
    element.textContent = summaryText(entries);
  };
  say();
  return { element, say };
}

function entriesOf({ pads }: ReadOutcome, { scale, targets, truth, before, sinceDipSeconds }: SheetData): Entry[] {
  return pads.map((pad, i) => ({
    pad,
    scalePad: scale.pads[i]!,
    target: targets[pad.quantity] ?? null,
    truth: truth[pad.quantity] ?? null,
    byHand: before?.byHand[i] ?? null,
    timing: judgeTiming(scale, sinceDipSeconds),
  }));
}

/** Says where a value doesn't fit what the logbook knows of the water. */
function fitLine(
  data: SheetData,
  reading: () => ReadingToKeep,
): { readonly element: HTMLElement; readonly look: () => void } {
  const element = h('div', { class: 'fit', role: 'status' });
  const tell = async () => (await import('./fit.ts')).tellMisfits(element, reading());
  // A practice photo is of no water that the logbook knows.
  return { element, look: () => void (isPractice(data) || tell().catch((error: unknown) => console.error(error))) };
}

function warningList(
  { warnings, basis }: ReadOutcome,
  { teachings }: StripScale,
  letters: ReturnType<typeof lettersOf>,
): HTMLElement[] {
  const taught = [...new Set(teachings.flatMap(({ printMark }) => printMark ?? []))];
  return warnings.map((code) => {
    const message =
      code === 'another-print' ? anotherPrintMessage(basis?.printMark ?? null, taught) : warningMessage(code);
    return reasonLine({ ...message, code, letter: letters.get(code) });
  });
}

function padRows(
  entries: Entry[],
  data: SheetData,
  onCorrected: () => void,
): { list: HTMLElement; redraw: () => void } {
  const list = h('ol', { class: 'pads' });
  const draw = (i: number): HTMLElement =>
    padRow(entries[i]!, i + 1, teachButton(entries[i]!, data), (byHand) => {
      entries[i] = { ...entries[i]!, byHand };
      onCorrected();
      const row = draw(i);
      list.children[i]!.replaceWith(row);
      row.querySelector('summary')?.focus();
    });
  const redraw = () => list.replaceChildren(...entries.map((_, i) => draw(i)));
  redraw();
  return { list, redraw };
}

function toPlan(entries: readonly Entry[], { scale, time, planUrl }: SheetData): HTMLElement {
  const button = h('button', { type: 'button', class: 'primary' }, 'Take these values to the plan');
  const problem = h('p', { role: 'status', class: 'hint' });
  button.addEventListener('click', () => {
    const measured = entries.map((entry) => measurementOf(entry, usedScale(scale), time.toISOString()));
    if (handOver(measured.filter((measurement) => measurement !== null))) location.assign(planUrl);
    else problem.textContent = 'This browser keeps nothing for the next page. Please type the values into the plan.';
  });
  return h('div', { class: 'to-plan no-print' }, button, problem);
}

function quality({ outcome, millis }: SheetData): HTMLElement {
  const { neutralResidual, shadingPercent, marksResidualMm } = outcome.quality;
  const facts: [string, string][] = [
    [
      'Colours corrected by',
      outcome.correction === 'anchors' ? 'the card’s greys and colour patches' : 'the card’s greys',
    ],
    [
      'Greys agree within',
      `${numberText(neutralResidual, { decimals: 1 })} CIEDE2000 (about 1 is a just visible step)`,
    ],
    ['Light changes across the slot by', `${Math.round(shadingPercent)} %`],
    ['Marks found within', `${numberText(marksResidualMm, { decimals: 2 })} mm`],
    ['Time taken', `${numberText((millis.find + millis.read) / 1000, { decimals: 1 })} s`],
  ];
  return h(
    'details',
    { class: 'quality' },
    h('summary', {}, `How good was this photo? ${photoGradeText(outcome)}`),
    h('dl', {}, ...facts.flatMap(([name, fact]) => [h('dt', {}, name), h('dd', {}, fact)])),
  );
}
