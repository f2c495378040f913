/** "Mark done" at a step of the plan: what was added goes into the logbook. */
import { moveToBin } from '../../browser/store/changes.ts';
import { changePool } from '../../browser/store/changes.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import { newId, zoneMinutesAt } from '../../browser/store/ids.ts';
import { type Logbook, openLogbook } from '../../browser/store/logbook.ts';
import { agentOf, productContent, singleAmount } from '../../core/log/product-content.ts';
import type { Entry } from '../../core/log/schema.ts';
import type { Step } from '../../core/water/plan/step.ts';
import { productName } from '../../words/plan/names.ts';
import { convert, type UnitSystem } from '../../core/water/units.ts';
import { h } from '../dom.ts';
import { failureText } from '../../words/log.ts';
import { capitalised } from '../../words/grammar.ts';
import { timeText } from '../../words/dates.ts';

/** What was marked on this page, by the step's id, so that a plan drawn anew still shows it. */
const done = new Map<string, Entry[]>();

/**
 * @param title of the step, for the log of steps without an amount
 * @param volumeLitres of the pool the plan is for; the logbook takes it over where it knows none
 */
export function stepDone(step: Step, title: string, units: UnitSystem, volumeLitres: number): HTMLElement {
  const root = h('div', { class: 'step-done no-print' });
  const show = (said = ''): void => {
    const marked = done.get(step.id) ?? [];
    const left = timesOf(step) - marked.length;
    const mark = h('button', { type: 'button', class: 'plain' }, markText(step, marked.length));
    mark.addEventListener('click', () => void write(step, title, units, volumeLitres).then(show));
    const undo = h('button', { type: 'button', class: 'plain' }, 'Undo');
    undo.addEventListener('click', () => void takeBack(step.id).then(show));
    root.replaceChildren(
      ...(left > 0 ? [mark] : []),
      h('span', { role: 'status' }, said || (marked.length > 0 ? ` ${doneText(marked)}` : '')),
      ...(marked.length > 0 ? [' ', undo] : []),
    );
  };
  show();
  return root;
}

function timesOf({ parts, replace }: Step): number {
  return replace?.times ?? parts;
}

function markText(step: Step, marked: number): string {
  const times = timesOf(step);
  return times > 1 ? `Mark ${marked + 1} of ${times} done` : 'Mark done';
}

function doneText(marked: readonly Entry[]): string {
  const last = new Date(marked.at(-1)!.time);
  return `In the logbook, ${timeText(last)}.`;
}

/** @returns what went wrong, if anything */
async function write(step: Step, title: string, units: UnitSystem, volumeLitres: number): Promise<string> {
  try {
    const logbook = await openLogbook();
    const entry = toEntry(step, title, units, (await logbook.pool()).id);
    await logbook.keepEntry(entry);
    done.set(step.id, [...(done.get(step.id) ?? []), entry]);
    await adoptVolume(logbook, volumeLitres);
    return '';
  } catch (error) {
    return failureText(toStoreError(error).failure);
  }
}

async function takeBack(stepId: string): Promise<string> {
  const marked = done.get(stepId) ?? [];
  const last = marked.at(-1);
  if (!last) return '';
  try {
    const logbook = await openLogbook();
    const present = (await logbook.store.get('entries', last.id)) ?? null;
    const record = { id: newId(), deleted: new Date().toISOString(), pool: null, scale: null };
    if (present) await logbook.write(moveToBin({ ...record, entries: [present] }));
    done.set(stepId, marked.slice(0, -1));
    return '';
  } catch (error) {
    return failureText(toStoreError(error).failure);
  }
}

async function adoptVolume(logbook: Logbook, volumeLitres: number): Promise<void> {
  const pool = await logbook.pool();
  if (pool.volumeLitres !== null) return;
  await logbook.write(changePool({ ...pool, volumeLitres }, new Date().toISOString()).change);
}

function toEntry(step: Step, title: string, units: UnitSystem, poolId: string): Entry {
  const now = new Date();
  const common = {
    id: newId(),
    poolId,
    revision: 1,
    edited: now.toISOString(),
    time: now.toISOString(),
    zoneMinutes: zoneMinutesAt(now),
  };
  const added = addedBy(step, units);
  if (!added) return { ...common, kind: 'note', note: `From the plan, done: ${title}.` };
  return { ...common, note: '', kind: 'addition', origin: 'planned', ...added };
}

type Added = Omit<Extract<Entry, { kind: 'addition' }>, keyof Extract<Entry, { kind: 'note' }> | 'origin'>;

/** One part of the step's amount, as it was measured out. */
function addedBy({ choice, amount, replace }: Step, units: UnitSystem): Added | null {
  if (replace) {
    const unknown = { chlorineGrams: null, acidMoles: null };
    const litres = Math.round(replace.litresPerTime);
    return units === 'us'
      ? {
          product: 'Fresh water',
          agent: 'water',
          amount: Math.round(convert('volume', litres, 'L', 'gal')),
          unit: 'gal',
          ...unknown,
        }
      : { product: 'Fresh water', agent: 'water', amount: litres, unit: 'L', ...unknown };
  }
  const measured = amount && singleAmount(units === 'us' ? amount.part.us : amount.part.metric);
  if (!choice || !measured || !(measured.amount > 0)) return null;
  const { product: id, strength } = choice;
  const name = productName(id);
  return {
    product: capitalised(name),
    agent: agentOf(id),
    ...measured,
    ...productContent(id, strength, measured.amount, measured.unit),
  };
}
