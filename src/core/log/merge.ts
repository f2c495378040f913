/**
 * Bringing a file into the logbook: what would happen, told before anything does, and what it takes to undo it.
 * The same thing is known by its id; of two copies the one with the higher revision counts, never the clock alone.
 */
import type { StripScale } from '../scale/schema.ts';
import { type Choice, type ChoiceChanges, mergeChoices } from './choices.ts';
import { canonical, type Replacement } from './compare.ts';
import type { Incoming } from './incoming.ts';
import { NOTHING_KNOWN } from './pool-record.ts';
import type { Entry, LogData, Pool } from './schema.ts';

export interface Present extends LogData {
  readonly scales: readonly StripScale[];
  readonly choices: readonly Choice[];
  /** Deleted, and still to be had back. */
  readonly binned: ReadonlySet<string>;
  readonly pictureIds: ReadonlySet<string>;
}

export interface Changes<T> {
  readonly add: readonly T[];
  readonly replace: readonly Replacement<T>[];
  /** Here already, just the same; under this id or another. */
  readonly same: number;
  /** Here already in a later revision. */
  readonly older: number;
}

export interface MergePlan {
  readonly pools: Changes<Pool>;
  readonly entries: Changes<Entry>;
  readonly scales: Changes<StripScale>;
  readonly choices: ChoiceChanges;
  /** Ids of the file's pictures that something will show and that aren't here yet. */
  readonly pictureIds: readonly string[];
  /** Entries among the added that had been deleted here. */
  readonly outOfBin: readonly string[];
}

export function planMerge(present: Present, incoming: Incoming): MergePlan {
  const pools = mergeRevised(present.pools, latest(incoming.pools), null);
  const entries = mergeRevised(present.entries, latest(incoming.entries), fingerprint);
  const arriving = [...entries.add, ...entries.replace.map(({ after }) => after)];
  const added = new Set(entries.add.map(({ id }) => id));
  const shown = new Set([...arriving, ...present.entries].map(pictureOf));
  return {
    pools: { ...pools, add: [...pools.add, ...standIns([...present.pools, ...pools.add], arriving)] },
    entries,
    scales: mergeScales(present.scales, incoming.scales),
    choices: mergeChoices(present.choices, incoming.choices),
    pictureIds: [...new Set(incoming.pictures.map(({ id }) => id))].filter(
      (id) => shown.has(id) && !present.pictureIds.has(id),
    ),
    outOfBin: [...present.binned].filter((id) => added.has(id)),
  };
}

type Counts = { readonly [Key in keyof Changes<unknown>]: number };

/** How much a plan would do: light enough to be passed around. */
export interface MergeOutline {
  readonly pools: Counts;
  readonly entries: Counts;
  readonly scales: Counts;
  readonly choices: ChoiceChanges;
  readonly pictures: number;
  readonly outOfBin: number;
}

export function outlineOf({ pools, entries, scales, choices, pictureIds, outOfBin }: MergePlan): MergeOutline {
  const counts = ({ add, replace, same, older }: Changes<unknown>): Counts => ({
    add: add.length,
    replace: replace.length,
    same,
    older,
  });
  return {
    pools: counts(pools),
    entries: counts(entries),
    scales: counts(scales),
    choices,
    pictures: pictureIds.length,
    outOfBin: outOfBin.length,
  };
}

/** Nothing would change. */
export function isIdle({ pools, entries, scales, choices, pictures }: MergeOutline): boolean {
  const changed = [pools, entries, scales].map(({ add, replace }) => add + replace);
  return [...changed, pictures, choices.add.length, choices.replace.length].every((count) => count === 0);
}

interface Revised {
  readonly id: string;
  readonly revision: number;
  readonly edited: string;
}

/** Of several copies in one file the latest. */
function latest<T extends Revised>(items: readonly T[]): T[] {
  const byId = new Map<string, T>();
  for (const item of items) {
    const other = byId.get(item.id);
    if (!other || isLater(item, other)) byId.set(item.id, item);
  }
  return [...byId.values()];
}

/** The order of copies: by revision, then time of the edit, then text, so that any two devices decide alike. */
function isLater<T extends Revised>(a: T, b: T): boolean {
  if (a.revision !== b.revision) return a.revision > b.revision;
  if (a.edited !== b.edited) return a.edited > b.edited;
  return canonical(a) > canonical(b);
}

function mergeRevised<T extends Revised>(
  present: readonly T[],
  incoming: readonly T[],
  twinKey: ((item: T) => string) | null,
): Changes<T> {
  const byId = new Map(present.map((item) => [item.id, item]));
  const twins = twinKey ? twinsFor(present, incoming, twinKey) : new Map<string, number>();
  const add: T[] = [];
  const replace: Replacement<T>[] = [];
  let same = 0;
  let older = 0;
  for (const item of incoming) {
    const mine = byId.get(item.id);
    if (mine) {
      if (canonical(mine) === canonical(item)) same += 1;
      else if (isLater(item, mine)) replace.push({ before: mine, after: item });
      else older += 1;
    } else if (twinKey && takeTwin(twins, twinKey(item))) same += 1;
    else add.push(item);
  }
  return { add, replace, same, older };
}

/** How many of each content are here that the file doesn't know by their id. Two alike in a file are two. */
function twinsFor<T extends Revised>(
  present: readonly T[],
  incoming: readonly T[],
  twinKey: (item: T) => string,
): Map<string, number> {
  const named = new Set(incoming.map(({ id }) => id));
  const twins = new Map<string, number>();
  for (const item of present) {
    if (named.has(item.id)) continue;
    const key = twinKey(item);
    twins.set(key, (twins.get(key) ?? 0) + 1);
  }
  return twins;
}

function takeTwin(twins: Map<string, number>, key: string): boolean {
  const left = twins.get(key) ?? 0;
  if (left > 0) twins.set(key, left - 1);
  return left > 0;
}

/** What an entry says, whoever wrote it down. */
function fingerprint(entry: Entry): string {
  return canonical({ ...entry, id: '', revision: 0, edited: '', pictureId: null });
}

/** A scale has no revisions: another one under a known id comes beside it, not in its place. */
function mergeScales(present: readonly StripScale[], incoming: readonly StripScale[]): Changes<StripScale> {
  const ids = new Set(present.map(({ id }) => id));
  const contents = new Set(present.map(scaleContent));
  const add: StripScale[] = [];
  let same = 0;
  for (const scale of incoming) {
    const content = scaleContent(scale);
    if (contents.has(content)) same += 1;
    else {
      const id = freeId(scale.id, ids);
      add.push({ ...scale, id });
      ids.add(id);
      contents.add(content);
    }
  }
  return { add, replace: [], same, older: 0 };
}

function scaleContent(scale: StripScale): string {
  return canonical({ ...scale, id: '' });
}

function freeId(id: string, taken: ReadonlySet<string>): string {
  for (let number = 1; ; number++) {
    const candidate = number === 1 ? id : `${id.slice(0, 58)}-${number}`;
    if (!taken.has(candidate)) return candidate;
  }
}

/** Pools for entries whose pool nobody describes. */
function standIns(pools: readonly Pool[], entries: readonly Entry[]): Pool[] {
  const known = new Set(pools.map(({ id }) => id));
  const made = new Map<string, Pool>();
  for (const { poolId: id, edited } of entries) {
    if (known.has(id) || made.has(id)) continue;
    made.set(id, { id, name: 'Pool', revision: 1, edited, ...NOTHING_KNOWN });
  }
  return [...made.values()];
}

function pictureOf(entry: Entry): string | null {
  return entry.kind === 'reading' ? entry.pictureId : null;
}
