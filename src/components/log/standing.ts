/** Where a pool stands and how it came there: the summary and the trend, from one look into the store. */
import type { Logbook } from '../../browser/store/logbook.ts';
import type { Entry, LogData, Pool } from '../../core/log/schema.ts';
import { daysBefore, daysBetween, EARLIEST, ESTIMATE_DAYS, LATELY_DAYS, latestTime } from '../../core/log/time.ts';
import { need } from '../dom.ts';
import type { DoseResult } from '../../core/progress/dose-results.ts';
import type { WaterCourse } from '../../core/track/estimate.ts';
import type { Spans } from '../../core/reading/spans.ts';

/** A trend goes on to this day where the last entry isn't older. */
const STILL_NOW_DAYS = 14;

type TrendView = typeof import('./trend-view.ts').trendView;

interface Span {
  readonly first: string;
  readonly last: string;
}

export class Standing {
  readonly #root: HTMLElement;
  readonly #logbook: Logbook;
  #pool: Pool | null = null;
  #spans: Spans = {};
  #course: WaterCourse | null = null;
  #doseResults: readonly DoseResult[] = [];
  /** What it was drawn from. */
  drawn: LogData = { pools: [], entries: [] };

  constructor(root: HTMLElement, logbook: Logbook) {
    this.#root = root;
    this.#logbook = logbook;
  }

  /** @returns shows what was found, where there is an entry with a date that can be right */
  async look(pool: Pool, spans: Spans): Promise<(() => void) | null> {
    [this.#pool, this.#spans] = [pool, spans];
    const span = await this.#span(pool);
    if (!span) return null;
    const { last } = span;
    const lately = daysBefore(last, LATELY_DAYS);
    const from = this.#trendFrom(span);
    const known = daysBefore(last, ESTIMATE_DAYS);
    const [entries, { summaryView }, { trendView }, { waterCourse }] = await Promise.all([
      this.#logbook.store.entriesBetween(pool.id, [from, lately, known].sort()[0]!, last),
      import('./summary.ts'),
      import('./trend-view.ts'),
      import('../../core/track/estimate.ts'),
    ]);
    this.#doseResults = await doseResultsIn(entries.filter(({ time }) => time >= lately));
    const late = entries.filter(({ time }) => time >= lately);
    const now = new Date().toISOString();
    this.#course = waterCourse(entries, pool, endOf(last, now));
    const data = {
      pool,
      entries: late,
      spans,
      now,
      estimate: this.#course?.now ?? null,
      ahead: this.#course?.ahead ?? new Map(),
      doseResults: this.#doseResults,
    };
    this.drawn = { pools: await this.#logbook.pools(), entries };
    const shown = entries.filter(({ time }) => time >= from && time <= last);
    return () => {
      need(this.#root, '.now').replaceChildren(
        summaryView(data, (next) => void import('../keep/export.ts').then((out) => out.exportCalendar(next, pool))),
      );
      this.#drawTrend(trendView, shown, { first: from, last });
    };
  }

  /** The trend alone, after another choice of days or width. */
  async showTrend(): Promise<void> {
    if (!this.#pool) return;
    const { store } = this.#logbook;
    const span = await this.#span(this.#pool);
    if (!span) return;
    const { last } = span;
    const first = this.#trendFrom(span);
    const { trendView } = await import('./trend-view.ts');
    this.#drawTrend(trendView, await store.entriesBetween(this.#pool.id, first, last), { first, last });
  }

  /** From the pool's first entry to its last: a date far away, from before dates were checked, says nothing about now. */
  #span(pool: Pool): Promise<Span | null> {
    return this.#logbook.store.span(pool.id, EARLIEST, latestTime(new Date().toISOString()));
  }

  #trendFrom({ first, last }: Span): string {
    const days = Number(need<HTMLSelectElement>(this.#root, '#trend-days').value);
    return days === 0 ? first : daysBefore(last, days);
  }

  #drawTrend(trendView: TrendView, entries: readonly Entry[], { first: earliest, last }: Span): void {
    const place = need<HTMLElement>(this.#root, '.trend');
    const wide = place.clientWidth > 900;
    const width = Math.max(300, Math.min(640, wide ? place.clientWidth * 0.52 : place.clientWidth));
    const course = this.#course?.course;
    const to = endOf(last, new Date().toISOString());
    const first = beginOf(entries, earliest, to);
    const data = {
      entries,
      spans: this.#spans,
      from: first,
      to,
      doseResults: this.#doseResults,
      ...(course && { course }),
    };
    place.replaceChildren(trendView(data, Math.floor(width)));
  }
}

/** Where there is something to show: an axis that is empty for two months makes the third unreadable. */
function beginOf(entries: readonly Entry[], earliest: string, to: string): string {
  const first = entries.map(({ time }) => time).sort()[0] ?? earliest;
  const padded = daysBefore(first, Math.max(MIN_PAD_DAYS, PAD_SHARE * daysBetween(first, to)));
  return padded > earliest ? padded : earliest;
}
const PAD_SHARE = 0.04;
const MIN_PAD_DAYS = 0.5;

/** Where a trend ends, and the estimate with it. */
function endOf(last: string, now: string): string {
  return now > last && last > daysBefore(now, STILL_NOW_DAYS) ? now : last;
}

/** The plan's chemistry is fetched only where there is a plan with something done. */
async function doseResultsIn(entries: readonly Entry[]): Promise<readonly DoseResult[]> {
  const hasDone = entries.some((entry) => entry.kind === 'plan' && entry.rounds.some(({ done }) => done.length > 0));
  if (!hasDone) return [];
  const { doseResultsOf } = await import('../../core/progress/dose-results.ts');
  return doseResultsOf(entries);
}
