/** Where a pool stands and how it came there: the summary and the trend, from one look into the store. */
import type { Logbook } from '../../browser/store/logbook.ts';
import { type EntryPlace, EVER } from '../../browser/store/store.ts';
import { whenIdle } from '../../browser/when-idle.ts';
import type { Entry, LogData, Pool } from '../../core/log/schema.ts';
import { daysBefore, daysBetween, EARLIEST, ESTIMATE_DAYS, LATELY_DAYS, latestTime } from '../../core/log/time.ts';
import type { Trend } from '../../core/log/trends.ts';
import { need } from '../dom.ts';
import type { PoolStanding, StandingQuestion } from '../../core/progress/standing.ts';
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
  #found: PoolStanding | null = null;
  #looks = 0;
  /** What it was drawn from; of a long log it comes by and by. */
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
    const now = new Date().toISOString();
    const [lately, known] = [daysBefore(last, LATELY_DAYS), daysBefore(last, ESTIMATE_DAYS)];
    const trendFrom = this.#trendFrom(span);
    const from = [trendFrom, lately, known].sort()[0]!;
    const question = { pool, spans, now, from, last, at: endOf(last, now), lately, trendFrom };
    const [found, { summaryView }, { trendView }] = await Promise.all([
      this.#find(question),
      import('./summary.ts'),
      import('./trend-view.ts'),
    ]);
    this.#found = found;
    return () => {
      need(this.#root, '.now').replaceChildren(
        summaryView(
          { pool, spans, now, found },
          (next) => void import('../keep/export.ts').then((out) => out.exportCalendar(next, pool)),
        ),
      );
      this.#drawTrend(trendView, found.trend, { first: trendFrom, last });
    };
  }

  async #find(question: StandingQuestion): Promise<PoolStanding> {
    const look = ++this.#looks;
    const { pool, from, last } = question;
    const pools = await this.#logbook.pools();
    if (await this.#isLong(from, last)) {
      this.drawn = { pools, entries: [] };
      const { standingBeside } = await import('../../browser/store/standing-client.ts');
      const found = await standingBeside(question).catch((error: unknown) => console.error(error));
      if (found) {
        whenIdle(() => void this.#gather(look, pool.id, from).catch((error: unknown) => console.error(error)));
        return found;
      }
    }
    const [entries, { standingOf }] = await Promise.all([
      this.#logbook.store.entriesBetween(pool.id, from, last),
      import('../../core/progress/standing.ts'),
    ]);
    this.drawn = { pools, entries };
    return standingOf(entries, question);
  }

  /** Working through it would hold the page up. */
  async #isLong(from: string, last: string): Promise<boolean> {
    const { store } = this.#logbook;
    return store.kind === 'kept' && (await store.countBetween(this.#pool!.id, from, last)) > LONG;
  }

  /** A piece at a time, until another look begins. */
  async #gather(look: number, poolId: string, from: string): Promise<void> {
    let place: EntryPlace | null = { time: EVER };
    const entries: Entry[] = [];
    while (place && look === this.#looks) {
      const more = await this.#logbook.store.entriesBefore(poolId, place, PIECE);
      entries.push(...more.filter(({ time }) => time >= from));
      const last = more.at(-1);
      place = last && more.length === PIECE && last.time >= from ? { time: last.time, id: last.id } : null;
    }
    if (look === this.#looks) this.drawn = { ...this.drawn, entries: entries.reverse() };
  }

  /** The trend alone, after another choice of days or width. */
  async showTrend(): Promise<void> {
    if (!this.#pool) return;
    const span = await this.#span(this.#pool);
    if (!span) return;
    const { last } = span;
    const first = this.#trendFrom(span);
    const [{ trendView }, trend] = await Promise.all([
      import('./trend-view.ts'),
      this.#trend(this.#pool.id, first, last),
    ]);
    this.#drawTrend(trendView, trend, { first, last });
  }

  async #trend(poolId: string, first: string, last: string): Promise<Trend> {
    if (await this.#isLong(first, last)) {
      return (await import('../../browser/store/standing-client.ts')).trendBeside(poolId, first, last);
    }
    const [entries, { trendOf }] = await Promise.all([
      this.#logbook.store.entriesBetween(poolId, first, last),
      import('../../core/log/trends.ts'),
    ]);
    return trendOf(entries);
  }

  /** From the pool's first entry to its last: a date far away, from before dates were checked, says nothing about now. */
  #span(pool: Pool): Promise<Span | null> {
    return this.#logbook.store.span(pool.id, EARLIEST, latestTime(new Date().toISOString()));
  }

  #trendFrom({ first, last }: Span): string {
    const days = Number(need<HTMLSelectElement>(this.#root, '#trend-days').value);
    return days === 0 ? first : daysBefore(last, days);
  }

  #drawTrend(trendView: TrendView, trend: Trend, { first: earliest, last }: Span): void {
    const place = need<HTMLElement>(this.#root, '.trend');
    const wide = place.clientWidth > 900;
    const width = Math.max(300, Math.min(640, wide ? place.clientWidth * 0.52 : place.clientWidth));
    const to = endOf(last, new Date().toISOString());
    const from = beginOf(trend.first ?? earliest, earliest, to);
    const { course = new Map(), doseResults = [] } = this.#found ?? {};
    place.replaceChildren(trendView({ trend, spans: this.#spans, from, to, doseResults, course }, Math.floor(width)));
  }
}

/** So many entries are worked through beside the page: a season of several a day has fewer. */
const LONG = 1500;
const PIECE = 200;

/** Where there is something to show: an axis that is empty for two months makes the third unreadable. */
function beginOf(first: string, earliest: string, to: string): string {
  const padded = daysBefore(first, Math.max(MIN_PAD_DAYS, PAD_SHARE * daysBetween(first, to)));
  return padded > earliest ? padded : earliest;
}
const PAD_SHARE = 0.04;
const MIN_PAD_DAYS = 0.5;

/** Where a trend ends, and the estimate with it. */
function endOf(last: string, now: string): string {
  return now > last && last > daysBefore(now, STILL_NOW_DAYS) ? now : last;
}
