/**
 * The plan that is kept, for everything on the plan's page: one at most. All that it does is one change of the logbook,
 * which expects the plan as it was when it was shown: what another tab did meanwhile is shown, never written over.
 */
import { changePlan } from '../../browser/store/changes.ts';
import { StoreError } from '../../browser/store/failure.ts';
import { newId, zoneMinutesAt } from '../../browser/store/ids.ts';
import { type Logbook, onLogbookNews, openLogbook } from '../../browser/store/logbook.ts';
import { askToPersist } from '../../browser/store/persistence.ts';
import { EVER } from '../../browser/store/store.ts';
import type { Done, Entry, PlanEntry, ReadingEntry } from '../../core/log/schema.ts';
import {
  amountsIn,
  lastDone,
  opened,
  type OpenPlan,
  standing,
  withDone,
  withoutLast,
  workedAnew,
} from '../../core/progress/rounds.ts';
import { planFrom } from '../../core/water/plan/make-plan.ts';
import { readingsAfter } from '../../core/water/plan/readings-after.ts';
import type { Plan } from '../../core/water/plan/types.ts';

import { type Common, type Readings, typedReading } from './kept-readings.ts';

/** What was done, as an entry tells it, and how it stands in the plan. */
export interface ToWrite {
  readonly step: string;
  readonly part: number;
  readonly planned: number | null;
  readonly amount: number | null;
  /** @param common what every entry has */
  readonly entry: (common: Common) => Entry;
}

export class KeptPlan {
  /** The plan that the sheet shows now, kept or not. */
  shown: Plan | null = null;
  /** The form's own readings: the plan may start from others. */
  atHand: Readings = {};
  readonly #changed = new Set<() => void>();
  #entry: PlanEntry | null = null;
  #readings: readonly ReadingEntry[] = [];
  #queue: Promise<unknown> = Promise.resolve();

  readonly #logbook: () => Promise<Logbook>;

  constructor(logbook: () => Promise<Logbook> = openLogbook) {
    this.#logbook = logbook;
    onLogbookNews((news) => {
      if (news === 'changed' && this.#entry) void this.#alone(() => this.#reload());
    });
  }

  onChange(listener: () => void): void {
    this.#changed.add(listener);
  }

  get entry(): PlanEntry | null {
    return this.#entry;
  }

  /** As it stands at this moment; null where none is open. */
  standing(now = new Date()): OpenPlan | null {
    if (!this.#entry) return null;
    const tested = this.#readings.map(({ time, values }) => ({
      time,
      quantities: values.map(({ quantity }) => quantity),
    }));
    return opened(this.#entry, tested, now.toISOString());
  }

  /** The newest reading that the plan knows nothing of. */
  newerReading(): ReadingEntry | null {
    const { rounds } = this.#entry ?? { rounds: [] };
    const since = [rounds.at(-1)?.time, this.#entry && lastDone(this.#entry)?.time].filter(Boolean).sort().at(-1);
    return (
      this.#readings.filter(({ id, time }) => time > (since ?? EVER) && id !== this.#entry?.readingId).at(-1) ?? null
    );
  }

  /** @returns whether it is there */
  async reopen(id: string): Promise<boolean> {
    return this.#alone(async () => {
      const logbook = await this.#logbook();
      const entry = await logbook.store.get('entries', id);
      if (entry?.kind !== 'plan') return false;
      logbook.choosePool(entry.poolId);
      await logbook.pool();
      this.#entry = entry;
      await this.#look();
      return true;
    });
  }

  leave(): void {
    this.#entry = null;
    this.#readings = [];
  }

  /** Keeps what the sheet shows, with the readings that were typed for it. */
  keep(readingTime: string | null): Promise<void> {
    return this.#alone(() => this.#keep(readingTime, null));
  }

  /** @param readingTime of the reading that the form was filled from, where the plan has yet to be kept */
  markDone(what: ToWrite, readingTime: string | null): Promise<void> {
    const seen = this.#entry;
    return this.#alone(async () => {
      // What was pressed belongs to the plan as it was shown.
      if (seen !== this.#entry) throw new StoreError('conflict');
      if (!this.#entry) return this.#keep(readingTime, what);
      const { plan } = opened(this.#entry, [], new Date().toISOString());
      if (!plan) return;
      const now = new Date();
      const entry = what.entry(commonOf(now, this.#entry.poolId));
      await this.#write(withDone(this.#entry, plan, doneOf(what, entry)), { written: [entry] }, now);
    });
  }

  takeBack(): Promise<void> {
    return this.#alone(async () => {
      const last = this.#entry && lastDone(this.#entry);
      if (!this.#entry || !last) return;
      const { store } = await this.#logbook();
      const present = await store.get('entries', last.entryId);
      const now = new Date();
      const binned = present && {
        id: newId(),
        deleted: now.toISOString(),
        entries: [present],
        pool: null,
        scale: null,
      };
      await this.#write(withoutLast(this.#entry, now.toISOString()), { binned: binned ?? null }, now);
    });
  }

  /** @param closed when it was put away; null takes it up again */
  putAway(closed: string | null): Promise<void> {
    return this.#alone(async () => {
      if (this.#entry) await this.#write({ ...this.#entry, closed }, {}, new Date());
    });
  }

  /** The rest from the newest reading; what it didn't measure stays as the steps have left it. */
  takeNewer(
    inputFrom: (plan: Plan, entry: PlanEntry, reading: ReadingEntry) => Record<string, unknown>,
  ): Promise<void> {
    return this.#alone(async () => {
      const reading = this.newerReading();
      const plan = this.standing()?.plan;
      if (!this.#entry || !reading || !plan) return;
      const now = new Date();
      const anew = workedAnew(this.#entry, inputFrom(plan, this.#entry, reading), 'reading', now.toISOString());
      await this.#write({ ...anew, readingId: reading.id }, {}, now);
    });
  }

  /**
   * The rest of a plan that was left, from the form as the sheet shows it: something in it was put right. What was done
   * stays done.
   */
  takeForm(id: string): Promise<void> {
    const { shown } = this;
    return this.#alone(async () => {
      const entry = await (await this.#logbook()).store.get('entries', id);
      const round = entry?.kind === 'plan' ? entry.rounds.at(-1)! : null;
      const before = round && planFrom(round.input);
      if (entry?.kind !== 'plan' || !round || !before?.ok || !shown) return;
      const now = new Date();
      const readings = readingsAfter(shown.input, amountsIn(round, before.plan));
      this.#entry = entry;
      await this.#write(workedAnew(entry, { ...shown.input, readings }, 'form', now.toISOString()), {}, now);
    });
  }

  async #keep(readingTime: string | null, what: ToWrite | null): Promise<void> {
    const plan = this.shown;
    if (!plan) return;
    const logbook = await this.#logbook();
    const pool = await logbook.pool();
    const now = new Date();
    const time = now.toISOString();
    const typed = typedReading(this.atHand, commonOf(now, pool.id));
    const found = readingTime === null ? [] : await logbook.store.entriesBetween(pool.id, readingTime, readingTime);
    const readingId = found.find(({ kind }) => kind === 'reading')?.id ?? typed?.id ?? null;
    const input = JSON.parse(JSON.stringify(plan.input)) as Record<string, unknown>;
    const fresh: PlanEntry = {
      ...commonOf(now, pool.id),
      note: '',
      kind: 'plan',
      readingId,
      rounds: [{ time, because: 'made', input, done: [] }],
      next: null,
      closed: null,
    };
    // One moment for all of it: what was done comes after what it was worked out from.
    const entry = what?.entry(commonOf(new Date(now.getTime() + 1), pool.id));
    const after = what && entry ? withDone(fresh, plan, doneOf(what, entry)) : standing(fresh, time);
    const written = [typed, entry].filter((one) => one !== null && one !== undefined);
    await this.#write(after, { written }, now, logbook);
    if (logbook.store.kind === 'kept') await askToPersist();
  }

  async #write(
    after: PlanEntry,
    beside: Parameters<typeof changePlan>[2],
    now: Date,
    logbook?: Logbook,
  ): Promise<void> {
    const book = logbook ?? (await this.#logbook());
    const { change, plan } = changePlan(this.#entry, after, beside, now.toISOString());
    try {
      await book.writeFor(plan.poolId, change);
      this.#entry = plan;
      await this.#look();
    } catch (error) {
      await this.#reload();
      throw error;
    }
    this.#tell();
  }

  async #reload(): Promise<void> {
    if (!this.#entry) return;
    const { store } = await this.#logbook();
    const present = await store.get('entries', this.#entry.id);
    const before = this.#readings.length;
    if (present?.kind !== 'plan') this.leave();
    else {
      const isSame = present.revision === this.#entry.revision;
      if (!isSame) this.#entry = present;
      await this.#look();
      if (isSame && this.#readings.length === before) return;
    }
    this.#tell();
  }

  /** What was read since it was made. */
  async #look(): Promise<void> {
    if (!this.#entry) return;
    const { store } = await this.#logbook();
    const entries = await store.entriesBetween(this.#entry.poolId, this.#entry.time, EVER);
    this.#readings = entries.filter((entry) => entry.kind === 'reading');
  }

  #tell(): void {
    for (const listener of this.#changed) listener();
  }

  /** One thing after the other: a second press finds what the first one did. */
  #alone<T>(run: () => Promise<T>): Promise<T> {
    const next = this.#queue.catch(() => undefined).then(run);
    this.#queue = next;
    return next;
  }
}

/** The same for everything on the page. */
export const keptPlan = new KeptPlan();

function commonOf(now: Date, poolId: string): Common {
  const time = now.toISOString();
  return { id: newId(), poolId, revision: 1, edited: time, time, zoneMinutes: zoneMinutesAt(now) };
}

function doneOf({ step, part, planned, amount }: ToWrite, { id, time }: Entry): Done {
  return { step, part, time, entryId: id, planned, amount };
}
