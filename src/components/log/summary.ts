/** Where the pool stands: what changed since last time, what the log has taught, and when to test again. */
import { CHANGES, nextTestText } from '../../words/log.ts';
import type { NextTest } from '../../core/log/next-test.ts';
import { daysBetween } from '../../core/log/time.ts';
import { countDone } from '../../core/log/plan-left.ts';
import type { Pool } from '../../core/log/schema.ts';
import { quantityTitle } from '../../words/quantities.ts';
import { planHash } from '../../browser/open-plan.ts';
import { GO_ON, nextTestDay, underWayText } from '../../words/kept-plan.ts';
import {
  BY_ALL_HINT,
  BY_ALL_READINGS,
  byAllReadingsOn,
  DOSE_RESULTS,
  doseResultText,
  NOT_EXPLAINED,
  nowText,
  oddityText,
  strengthText,
} from '../../words/water-now.ts';
import type { PoolStanding } from '../../core/progress/standing.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import type { Spans } from '../../core/reading/spans.ts';
import { acidTexts } from '../keep/acid-rate.ts';
import { rateText } from '../keep/measures.ts';
import { valueText } from './trend-view.ts';
import { volumeExperiment, volumeOffer } from './volume-offer.ts';
import { dateText, shortDayText } from '../../words/dates.ts';

export interface SummaryData {
  readonly pool: Pool;
  readonly spans: Spans;
  readonly now: string;
  readonly found: PoolStanding;
}

export function summaryView(data: SummaryData, onCalendar: (next: NextTest) => void): HTMLElement {
  const { found, now } = data;
  const { next } = found;
  return h(
    'div',
    { class: 'log-summary' },
    openPlanView(data),
    oddView(found),
    allTogetherView(data),
    doseResultsView(data),
    changesView(found),
    learntView(data),
    next && nextView(next, new Date(now), onCalendar),
  );
}

/** The plan that is under way comes first. */
function openPlanView({ found: { plan }, now }: SummaryData): HTMLElement | null {
  if (!plan) return null;
  const text = underWayText(countDone(plan), plan.next.kind, plan.next.from, new Date(now));
  const link = h('a', { href: href(`plan/${planHash(plan.id)}`) }, GO_ON);
  return h('p', { class: 'lead open-plan' }, `${text} `, link);
}

/** What doesn't fit comes before all numbers: whoever acts on one should know. */
function oddView({ estimate }: PoolStanding): HTMLElement | null {
  const lines = (estimate?.oddities ?? []).map((oddity) => h('li', {}, oddityText(oddity)));
  return lines.length > 0 ? h('section', { class: 'odd' }, h('h3', {}, NOT_EXPLAINED), h('ul', {}, ...lines)) : null;
}

/** The plan's doses against the next readings, the newest first. */
function doseResultsView({ found: { doseResults }, now }: SummaryData): HTMLElement | null {
  const lines = [...doseResults].sort((a, b) => (a.done < b.done ? 1 : -1)).slice(0, MAX_DOSE_RESULTS);
  const items = lines.map((one) => h('li', {}, doseResultText(one, new Date(now))));
  return items.length > 0
    ? h('section', { class: 'dose-results' }, h('h3', {}, DOSE_RESULTS), h('ul', {}, ...items))
    : null;
}
const MAX_DOSE_RESULTS = 6;

function allTogetherView({ found: { estimate }, now }: SummaryData): HTMLElement | null {
  // One reading alone is what it is.
  const several = (estimate?.quantities ?? []).filter(({ readings }) => readings > 1);
  if (several.length === 0) return null;
  const lines = several.map((one) => h('li', {}, h('strong', {}, quantityTitle(one.quantity)), ` ${nowText(one)}.`));
  return h(
    'section',
    { class: 'all-together' },
    h('h3', {}, estimate && daysBetween(estimate.at, now) > 1 ? byAllReadingsOn(estimate.at) : BY_ALL_READINGS),
    h('ul', {}, ...lines),
    h('p', { class: 'hint' }, BY_ALL_HINT),
  );
}

function changesView({ changes }: PoolStanding): HTMLElement | null {
  if (changes.length === 0) return null;
  const rows = changes.map((change) =>
    h(
      'tr',
      {},
      h('th', { scope: 'row' }, quantityTitle(change.quantity)),
      h(
        'td',
        {},
        h('span', { class: 'value' }, valueText(change.before, change.quantity)),
        ' ',
        h('span', { class: 'hint' }, shortDayText(change.before.time)),
      ),
      h('td', { class: 'value' }, valueText(change.after, change.quantity)),
      h('td', {}, CHANGES[change.direction]),
    ),
  );
  const head = ['reading', 'before', 'now', 'change'].map((name) => h('th', { scope: 'col' }, name));
  return h(
    'section',
    {},
    h('h3', {}, 'Since last time'),
    h('table', {}, h('thead', {}, h('tr', {}, ...head)), h('tbody', {}, ...rows)),
  );
}

function learntView({ pool, found: { estimate, chlorine, acid }, spans }: SummaryData): HTMLElement {
  const missing = [
    chlorine || pool.volumeLitres === null
      ? ''
      : 'The chlorine use a day appears once three readings of it or more, with every addition noted between them, agree on one.',
    pool.volumeLitres === null ? 'Give the volume of the pool above, and its chlorine use can be learnt.' : '',
    acid ? '' : 'The acid use a week appears once three doses or more are noted that agree on one.',
  ];
  const litres = estimate?.learnt.volumeLitres ?? null;
  const salt = estimate?.quantities.find(({ quantity }) => quantity === 'salt') ?? null;
  return h(
    'section',
    {},
    h('h3', {}, 'Learnt from the log'),
    chlorine &&
      h(
        'p',
        {},
        'The pool uses up about ',
        h('strong', { class: 'rate' }, rateText(chlorine)),
        ` mg/L of free chlorine a day, from ${chlorine.count} readings between ${dateText(chlorine.from)} and ${dateText(chlorine.to)}. Nine times in ten the truth lies between the two numbers in brackets.`,
      ),
    acid &&
      h(
        'p',
        {},
        'It takes about ',
        h('strong', { class: 'rate' }, acidTexts(acid)[0]),
        ` ${acidTexts(acid)[1]} a week, or as much of another acid as does the same, from ${acid.count} doses.`,
      ),
    ...(estimate?.learnt.strengths ?? []).map((strength) => h('p', {}, strengthText(strength))),
    litres ? volumeOffer(litres, pool) : volumeExperiment(salt, spans.salt?.high ?? null, pool),
    ...missing.filter(Boolean).map((text) => h('p', { class: 'hint' }, text)),
  );
}

function nextView(next: NextTest, now: Date, onCalendar: (next: NextTest) => void): HTMLElement {
  const button = h('button', { type: 'button', class: 'no-print' }, 'Into my calendar');
  button.addEventListener('click', () => onCalendar(next));
  return h(
    'section',
    {},
    h('h3', {}, 'Next test'),
    h('p', {}, h('strong', {}, nextTestDay(next, now)), `. ${nextTestText(next)}`),
    button,
  );
}
