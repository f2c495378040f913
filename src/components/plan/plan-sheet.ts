/** The whole plan on the page: the verdict, the steps, and what they rest on. */
import type { CautionCode } from '../../core/water/cautions.ts';
import { caution } from '../../words/plan/cautions.ts';
import type { Plan } from '../../core/water/plan/types.ts';
import { assumptionLine, endLine, retestLine, upkeepLine } from '../../words/plan/parts.ts';
import {
  holdText,
  notMeasuredText,
  nothingText,
  remedyText,
  IF_BOTTOM_VISIBLE,
  swimText,
  verdictText,
} from '../../words/plan/sentences.ts';
import { targetName } from '../../words/plan/names.ts';
import { volumeText } from '../../words/plan/numbers.ts';
import { capitalised } from '../../words/grammar.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { h } from '../dom.ts';
import { PRACTICE_NOTE, PRACTICE_PLAN } from '../../words/methods.ts';
import { actions } from './actions.ts';
import { findingsTable } from './findings-table.ts';
import { keptHead } from './kept-head.ts';
import { costText, makesText, seasonText, toldText } from '../../words/plan/told.ts';
import { occasions } from './occasions.ts';
import { fold, list, section } from './sections.ts';
import { stepView } from './step-view.ts';
import { waterView } from './water-view.ts';

/** @param withAmounts false while the volume isn't known: then only what doesn't depend on it is shown */
export function planSheet(plan: Plan, units: UnitSystem, withAmounts: boolean): HTMLElement[] {
  return [
    ...(withAmounts ? [printedHead(plan, units)] : []),
    isPractice(plan) ? h('p', { class: 'wrong' }, `${PRACTICE_NOTE} ${PRACTICE_PLAN}`) : null,
    swimming(plan),
    ...(withAmounts ? stepsAndKeeping(plan, units) : [askForVolume()]),
    held(plan),
    retests(plan),
    ...(withAmounts ? [upkeep(plan, units), cost(plan)] : []),
    told(plan, units),
    ...(withAmounts ? [occasions(plan, units)] : []),
    section('The water now', findingsTable(plan, units), waterView(plan)),
    ...(withAmounts ? [end(plan, units)] : []),
    assumed(plan, units),
    section(
      'Bear in mind',
      cautionList(plan.generalCautions.filter((code) => !withAmounts || !FOR_EVERY_PRODUCT.includes(code))),
    ),
  ].filter((part) => part !== null);
}

/** A plan that is kept says how far it is before its steps; the offer to keep one comes after them. */
function stepsAndKeeping(plan: Plan, units: UnitSystem): (HTMLElement | null)[] {
  const head = keptHead(units, plan.steps.length > 0 && !isPractice(plan));
  const steps = whatToDo(plan, units);
  return head?.classList.contains('keep-plan') ? [steps, head] : [head, steps];
}

/** What a printed plan was made for. */
function printedHead({ input }: Plan, units: UnitSystem): HTMLElement {
  const today = new Date().toLocaleDateString('en-GB', { dateStyle: 'long' });
  return h(
    'p',
    { class: 'print-only' },
    `Plan of ${today} for ${volumeText(input.pool.volumeLitres, units)} of water.`,
  );
}

/** From a practice photo: nothing of it belongs in the logbook of a real pool. */
function isPractice({ input }: Plan): boolean {
  return Object.values(input.readings).some((reading) => reading?.scale?.origin === 'practice');
}

function swimming(plan: Plan): HTMLElement {
  const { swim, reasons, onlyIfBottomVisible, notMeasured } = plan.verdict;
  const said = [...reasons.map(verdictText), ...(onlyIfBottomVisible ? [IF_BOTTOM_VISIBLE] : [])];
  return section(
    'Swimming',
    h('p', { class: swim === 'no-objection' ? 'verdict' : 'verdict marked' }, swimText(swim)),
    said.length > 0 ? h('p', {}, said.join(' ')) : null,
    h('p', { class: 'hint' }, notMeasuredText(notMeasured)),
    actions(plan),
  );
}

/** Handling cautions that are the same for most products: said once, after the steps, instead of at each. */
const FOR_EVERY_PRODUCT: readonly CautionCode[] = [
  'one-at-a-time',
  'open-outdoors',
  'wait-before-swimming',
  'back-in-range-first',
  'children-away',
  'poison-help',
];

function whatToDo(plan: Plan, units: UnitSystem): HTMLElement {
  const { steps, nothingNeeded, generalCautions } = plan;
  if (nothingNeeded) return section('What to do', h('p', { class: 'lead' }, nothingText(nothingNeeded)));
  const named = new Set([...generalCautions, ...steps.flatMap(({ cautions }) => cautions)]);
  const saidOnce = FOR_EVERY_PRODUCT.filter((code) => named.has(code));
  const views = steps.map((step) => stepView(step, units, { saidOnce, isPractice: isPractice(plan) }));
  const always = steps.some(({ amount }) => amount) ? cautionList(['label', ...saidOnce]) : null;
  return section(
    'What to do',
    h('ol', { class: 'steps' }, ...views),
    always && h('h3', {}, 'Whenever you add something'),
    always,
  );
}

function cautionList(codes: readonly CautionCode[]): HTMLElement | null {
  return list(
    codes.map((code) => caution(code).text),
    'cautions',
  );
}

function askForVolume(): HTMLElement {
  return section('What to do', h('p', {}, 'Give the volume of your pool, and the amounts appear here.'));
}

/** What is held for the same reason is said once. */
function held({ holds }: Plan): HTMLElement | null {
  if (holds.length === 0) return null;
  const groups = new Map<string, string[]>();
  for (const { target, reason, remedy } of holds) {
    const text = `${holdText(reason)} ${remedyText(remedy)}`;
    groups.set(text, [...(groups.get(text) ?? []), targetName(target)]);
  }
  const lines = [...groups].map(([text, names]) =>
    h('span', {}, h('strong', {}, capitalised(names.join(', '))), `: ${text}`),
  );
  return section('Not dosed for', list(lines));
}

/** Leaves out what is already asked for where it is held. */
function retests({ retests: all, holds }: Plan): HTMLElement | null {
  const shown = all.filter(({ reason, afterHours }) => reason !== 'held' || afterHours > 0 || holds.length === 0);
  return shown.length > 0 ? section('Test again', list(shown.map(retestLine))) : null;
}

function upkeep({ upkeep: kept }: Plan, units: UnitSystem): HTMLElement | null {
  if (!kept) return null;
  const cell = kept.kind === 'chlorinator' ? kept : null;
  return section(
    'Day by day',
    h('p', {}, upkeepLine(kept, units)),
    cell && h('p', {}, makesText(cell)),
    cell && fold('Through the season', h('p', {}, seasonText(cell, units))),
  );
}

function cost({ cost: found }: Plan): HTMLElement | null {
  return found ? section('What it costs', h('p', {}, costText(found))) : null;
}

function told({ told: found }: Plan, units: UnitSystem): HTMLElement | null {
  return found.length > 0 ? section('Told, not treated', list(found.map((one) => toldText(one, units)))) : null;
}

function end({ steps, endChecks }: Plan, units: UnitSystem): HTMLElement | null {
  if (steps.length === 0) return null;
  const lines = endChecks.map((check) => h('li', { class: check.inside ? 'inside' : null }, endLine(check, units)));
  return section('When all is done', h('ul', { class: 'ends' }, ...lines));
}

function assumed({ assumptions }: Plan, units: UnitSystem): HTMLElement | null {
  if (assumptions.length === 0) return null;
  const lines = list(assumptions.map((assumption) => assumptionLine(assumption, units)));
  return h('section', {}, fold(`What was assumed (${assumptions.length})`, lines));
}
