/** What the logbook says of today, fetched by those who keep one. */
import '../../browser/zod-setup.ts';
import { checkOpenPlan } from '../../browser/check-open-plan.ts';
import { keptSpans } from '../../browser/spans.ts';
import { openLogbook } from '../../browser/store/logbook.ts';
import { type Ahead, nextTest } from '../../core/log/next-test.ts';
import { type Entry, countingValues, type LoggedValue, type ReadingEntry } from '../../core/log/schema.ts';
import { daysBefore, ESTIMATE_DAYS, latestTime } from '../../core/log/time.ts';
import { changesSinceLast, type QuantityChange, seriesOf } from '../../core/log/trends.ts';
import { swimToday } from '../../core/progress/swim-today.ts';
import type { Spans } from '../../core/reading/spans.ts';
import { USUAL_SPANS } from '../../core/reading/usual-spans.ts';
import { waterToday, type WaterNow } from '../../core/track/estimate.ts';
import { changedText, nextTestText } from '../../words/log.ts';
import { nextTestDay } from '../../words/kept-plan.ts';
import { quantityTitle } from '../../words/quantities.ts';
import { oddityText } from '../../words/water-now.ts';
import { readAtText, swimTodayText, TODAY } from '../../words/today.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { loggedText, shownUnit, wordText } from '../keep/measures.ts';
import { toElement } from '../svg.ts';
import { drawSpark } from './spark.ts';

/** Readings of the slow quantities count for as long. */
const LOOKED_AT_DAYS = 70;
const MAX_SPARK_POINTS = 12;

export interface TodayView {
  /** The name of the pool, where there are several. */
  readonly pool: string | null;
  readonly swim: readonly HTMLElement[];
  readonly rest: readonly HTMLElement[];
}

/** Null where nothing is in the logbook. */
export async function todayView(): Promise<TodayView | null> {
  const logbook = await openLogbook();
  const [pool, pools] = await Promise.all([logbook.pool(), logbook.pools()]);
  const now = new Date();
  const iso = now.toISOString();
  const known = await logbook.store.entriesBetween(pool.id, daysBefore(iso, ESTIMATE_DAYS), latestTime(iso));
  const lately = daysBefore(iso, LOOKED_AT_DAYS);
  const entries = known.filter(({ time }) => time >= lately);
  const last = entries.filter((entry) => entry.kind === 'reading').at(-1);
  if (!last) return null;
  const { answer, because } = swimTodayText(swimToday(entries, iso), now);
  const spans = keptSpans() ?? USUAL_SPANS;
  const water = waterToday(known, pool, iso);
  checkOpenPlan(known, iso);
  return {
    pool: pools.length > 1 ? pool.name : null,
    swim: [h('p', { class: 'lead answer' }, answer), h('p', {}, because), ...misfitsIn(last, water?.now ?? null)],
    rest: [lastReading(last, entries, spans, now), nextTestView(entries, spans, water?.ahead ?? new Map(), iso)].filter(
      (part) => part !== null,
    ),
  };
}

/** What of the last reading doesn't fit all others: whoever acts on it should know. */
function misfitsIn({ time }: ReadingEntry, now: WaterNow | null): HTMLElement[] {
  return (now?.oddities ?? [])
    .filter(({ kind, to }) => kind === 'unconfirmed' && to === time)
    .map((oddity) => h('p', { class: 'wrong' }, oddityText(oddity)));
}

function lastReading(last: ReadingEntry, entries: readonly Entry[], spans: Spans, now: Date): HTMLElement {
  const changes = changesSinceLast(entries);
  const rows = countingValues(last).map((value) => {
    const change = changes.find(({ quantity }) => quantity === value.quantity);
    return row(value, entries, spans, change);
  });
  return h(
    'section',
    { class: 'last-reading', 'aria-labelledby': 'last-reading' },
    h('h2', { id: 'last-reading' }, TODAY.lastReading, ' ', h('span', { class: 'when' }, readAtText(last, now))),
    last.scale?.origin === 'practice' ? h('p', { class: 'hint' }, TODAY.practice) : null,
    h('ul', {}, ...rows),
    h('p', {}, h('a', { href: href('log/') }, TODAY.toLog)),
  );
}

function row(
  value: LoggedValue,
  entries: readonly Entry[],
  spans: Spans,
  change: QuantityChange | undefined,
): HTMLElement {
  const { quantity } = value;
  const points = seriesOf(entries, quantity).slice(-MAX_SPARK_POINTS);
  const item = h(
    'li',
    {},
    h('span', { class: 'name' }, quantityTitle(quantity)),
    h(
      'span',
      { class: 'found' },
      h('strong', {}, loggedText(value)),
      shownUnit(quantity) ? h('span', { class: 'unit' }, ` ${shownUnit(quantity)}`) : null,
      h('em', {}, ` ${wordText(value)}`),
    ),
    change ? h('span', { class: 'changed hint' }, changedText(change)) : null,
  );
  // The hatched span and the scale are in the visitor's sight only: the words beside say the same.
  if (points.length > 1 && quantity !== 'temperature')
    item.append(toElement(drawSpark(points, spans[quantity] ?? null)));
  return item;
}

function nextTestView(entries: readonly Entry[], spans: Spans, ahead: Ahead, now: string): HTMLElement | null {
  const next = nextTest(entries, (quantity) => spans[quantity] ?? null, ahead, now);
  if (!next) return null;
  return h(
    'section',
    { 'aria-labelledby': 'next-test' },
    h('h2', { id: 'next-test' }, TODAY.nextTest),
    h('p', {}, h('strong', {}, nextTestDay(next, new Date(now))), `. ${nextTestText(next)}`),
  );
}
