/** One entry of the logbook on the page. Whatever a file brought in is text here, never markup. */
import {
  type AdditionEntry,
  countingValues,
  type Entry,
  type PlanEntry,
  type ReadingEntry,
  type WeatherEntry,
} from '../../core/log/schema.ts';
import type { QuantityId } from '../../core/measurement/quantities.ts';
import { countDone, stillStands } from '../../core/log/plan-left.ts';
import { judgementText, warningMessage } from '../../words/reading.ts';
import { quantityTitle } from '../../words/quantities.ts';
import type { WarningCode } from '../../core/reading/reading.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { planHash } from '../../browser/open-plan.ts';
import { KEPT, kindTitle, nextText, OPEN_PLAN } from '../../words/kept-plan.ts';
import { formatValue, numberText } from '../../words/numbers.ts';
import { PRACTICE_NOTE } from '../../words/methods.ts';
import { intervalText, loggedText, rainText, shownUnit, temperatureText, wordText } from '../keep/measures.ts';
import { AGENT_WORDS, KINDS, SKY_WORDS, UNIT_WORDS } from '../../words/log.ts';
import { capitalised, countText } from '../../words/grammar.ts';
import { wallText } from '../../words/dates.ts';

const UNMATCHED = judgementText({ word: 'unmatched', otherWord: null, isSure: true });

export interface EntryActions {
  readonly onDelete: (entry: Entry) => void;
  readonly onNote: (entry: Entry, note: string) => void;
  readonly onPicture: (pictureId: string, place: HTMLElement) => void;
  /** A note was being written to an entry that is gone. */
  readonly onDraftLost: (note: string) => void;
}

/** What is being written to an entry and isn't kept yet; null where nothing is. */
export function draftIn(row: HTMLElement): string | null {
  const area = row.querySelector<HTMLTextAreaElement>('.entry-tools textarea');
  return area && area.value !== area.defaultValue ? area.value : null;
}

/** Goes on with what was being written in the row that this one takes the place of. */
export function carryDraft(from: HTMLElement, to: HTMLElement): void {
  const draft = draftIn(from);
  const [before, after] = [from, to].map((row) => row.querySelector<HTMLTextAreaElement>('.entry-tools textarea'));
  // Kept meanwhile, it is no draft any more.
  if (draft === null || !before || !after || draft.trim() === after.defaultValue) return;
  after.value = draft;
  after.closest('details')!.open = true;
  if (document.activeElement !== before) return;
  const { selectionStart, selectionEnd } = before;
  // Once it stands in the page.
  queueMicrotask(() => {
    after.focus({ preventScroll: true });
    after.setSelectionRange(selectionStart, selectionEnd);
  });
}

export function entryView(entry: Entry, actions: EntryActions): HTMLElement {
  const time = wallText(entry.time, entry.zoneMinutes, {
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
  });
  return h(
    'li',
    { class: `log-entry ${entry.kind}`, 'data-entry': entry.id, tabindex: -1 },
    h('h4', {}, h('time', { datetime: entry.time }, time), ' ', h('span', { class: 'kind' }, titleOf(entry))),
    ...bodyOf(entry, actions),
    entry.note === '' ? null : h('p', { class: 'note' }, h('bdi', {}, entry.note)),
    tools(entry, time, actions),
  );
}

function titleOf(entry: Entry): string {
  if (entry.kind === 'addition') return entry.origin === 'planned' ? 'Addition, from the plan' : 'Addition';
  if (entry.kind === 'reading' && entry.origin === 'typed') return 'Reading, typed';
  return KINDS[entry.kind];
}

function bodyOf(entry: Entry, actions: EntryActions): (HTMLElement | null)[] {
  switch (entry.kind) {
    case 'reading':
      return readingBody(entry, actions);
    case 'addition':
      return [additionBody(entry)];
    case 'weather':
      return [h('p', {}, weatherText(entry))];
    case 'plan':
      return planBody(entry);
    case 'note':
      return [];
  }
}

function readingBody(entry: ReadingEntry, actions: EntryActions): (HTMLElement | null)[] {
  const counting = countingValues(entry);
  const rows = counting.map((value) =>
    row(
      value.quantity,
      [loggedText(value), shownUnit(value.quantity)].filter(Boolean).join(' '),
      intervalText(value),
      wordText(value),
    ),
  );
  const found = new Set(counting.map(({ quantity }) => quantity));
  for (const quantity of entry.unmatched) {
    if (!found.has(quantity)) rows.push(row(quantity, '–', 'no part of the scale fits', UNMATCHED));
  }
  return [
    rows.length > 0 ? h('table', { class: 'values' }, h('tbody', {}, ...rows)) : null,
    h('p', { class: 'hint' }, conditionsText(entry)),
    entry.pictureId === null ? null : pictureButton(entry.pictureId, actions),
  ];
}

function row(quantity: QuantityId, value: string, interval: string, word: string): HTMLElement {
  return h(
    'tr',
    {},
    h('th', { scope: 'row' }, quantityTitle(quantity)),
    h('td', { class: 'value' }, value),
    h('td', {}, interval),
    h('td', {}, word),
  );
}

function conditionsText({ scale, correction, sinceDipSeconds, warnings }: ReadingEntry): string {
  const parts = [
    scale ? `Scale: ${scale.name}.` : '',
    scale?.origin === 'practice' ? PRACTICE_NOTE : '',
    correction === null ? '' : correction === 'anchors' ? 'Corrected by greys and colours.' : 'Corrected by the greys.',
    sinceDipSeconds === null ? '' : `Photo ${Math.round(sinceDipSeconds)} s after the dip.`,
    ...warnings.map((code) => warningMessage(code as WarningCode)?.wrong ?? ''),
  ];
  return parts.filter(Boolean).join(' ');
}

function pictureButton(pictureId: string, { onPicture }: EntryActions): HTMLElement {
  const place = h('div', { class: 'log-picture' });
  const button = h('button', { type: 'button', class: 'plain no-print' }, 'Show the card');
  button.addEventListener('click', () => {
    button.remove();
    onPicture(pictureId, place);
  });
  place.append(button);
  return place;
}

function planBody({ id, rounds, next, closed }: PlanEntry): HTMLElement[] {
  const now = new Date();
  const isDone = closed === null && (next === null || next.kind === 'test');
  const done = countDone({ rounds });
  const said = [
    done === 0 || isDone ? '' : `${countText(done, 'step', 'steps')} done.`,
    isDone ? KEPT.finished : closed !== null ? KEPT.isPutAway : '',
    closed === null && next && stillStands(next, now.toISOString())
      ? nextText(kindTitle(next.kind), next.from, now)
      : '',
  ];
  return [h('p', {}, `${said.filter(Boolean).join(' ')} `, h('a', { href: href(`plan/${planHash(id)}`) }, OPEN_PLAN))];
}

function additionBody({ amount, unit, product, agent, chlorineGrams, acidMoles }: AdditionEntry): HTMLElement {
  const facts = [
    agent === 'other' ? '' : AGENT_WORDS[agent].words,
    chlorineGrams === null ? '' : `${formatValue(Math.round(chlorineGrams))} g of chlorine`,
    acidMoles === null ? '' : `${numberText(acidMoles, { decimals: 1 })} mol of acid`,
  ];
  return h(
    'p',
    {},
    h('strong', {}, `${formatValue(amount)} ${UNIT_WORDS[unit]}`),
    ' ',
    h('bdi', {}, product),
    h('span', { class: 'hint' }, ` ${facts.filter(Boolean).join(', ')}`),
  );
}

export function weatherText({ airTemperatureC, sky, rainMm, bathers }: WeatherEntry): string {
  const parts = [
    sky === null ? '' : SKY_WORDS[sky],
    airTemperatureC === null ? '' : `air ${temperatureText(airTemperatureC)}`,
    rainMm === null ? '' : `${rainText(rainMm)} of rain`,
    bathers === null ? '' : countText(bathers, 'bather', 'bathers'),
  ];
  const text = parts.filter(Boolean).join(', ');
  return text === '' ? 'Nothing noted.' : `${capitalised(text)}.`;
}

function tools(entry: Entry, time: string, { onDelete, onNote }: EntryActions): HTMLElement {
  const about = `${KINDS[entry.kind]} of ${time}`;
  const remove = h('button', { type: 'button', class: 'plain', 'aria-label': `Delete: ${about}` }, 'Delete');
  remove.addEventListener('click', () => onDelete(entry));
  const area = h('textarea', { rows: 3, maxlength: 2000, 'aria-label': `Note: ${about}` });
  area.defaultValue = entry.note;
  const form = h('form', {}, area, h('button', { type: 'submit' }, 'Keep the note'));
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    onNote(entry, area.value);
  });
  const summary = h(
    'summary',
    {},
    entry.note === '' ? 'Add a note' : 'Change the note',
    h('span', { class: 'visually-hidden' }, `: ${about}`),
  );
  return h('div', { class: 'entry-tools no-print' }, h('details', {}, summary, form), remove);
}
