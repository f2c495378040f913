/** Taking an import back: what it added goes, what it replaced returns, what was changed since then stays. */
import type { StripScale } from '../scale/schema.ts';
import { type Choice, type ChoiceUndo, undoChoices } from './choices.ts';
import type { Replacement } from './compare.ts';
import type { MergePlan } from './merge.ts';
import type { Entry, LogData, Pool } from './schema.ts';

export interface ImportRecord {
  readonly id: string;
  readonly time: string;
  readonly fileName: string;
  readonly added: {
    readonly pools: readonly Pool[];
    readonly entries: readonly Entry[];
    readonly scales: readonly StripScale[];
    readonly pictureIds: readonly string[];
  };
  readonly replaced: { readonly pools: readonly Replacement<Pool>[]; readonly entries: readonly Replacement<Entry>[] };
  readonly choices: { readonly add: readonly Choice[]; readonly replace: readonly Replacement<Choice>[] };
  /** As they lay in the bin before. */
  readonly outOfBin: readonly Entry[];
}

export function importRecord(
  { pools, entries, scales, choices, pictureIds }: MergePlan,
  about: { readonly id: string; readonly time: string; readonly fileName: string; readonly binned: readonly Entry[] },
): ImportRecord {
  const { binned, ...rest } = about;
  return {
    ...rest,
    added: { pools: pools.add, entries: entries.add, scales: scales.add, pictureIds },
    replaced: { pools: pools.replace, entries: entries.replace },
    choices: { add: choices.add, replace: choices.replace },
    outOfBin: binned,
  };
}

export interface UndoPlan {
  readonly removeEntries: readonly string[];
  readonly removePools: readonly string[];
  readonly removeScales: readonly string[];
  readonly removePictures: readonly string[];
  readonly putEntries: readonly Entry[];
  readonly putPools: readonly Pool[];
  readonly putInBin: readonly Entry[];
  readonly choices: ChoiceUndo;
  /** How many things were changed after the import and so stay as they are. */
  readonly kept: number;
}

export function planUndo(
  present: LogData & { readonly scales: readonly StripScale[]; readonly choices: readonly Choice[] },
  record: ImportRecord,
): UndoPlan {
  const choices = undoChoices(present.choices, record.choices);
  const entries = undoOf(present.entries, record.added.entries, record.replaced.entries);
  const leaving = new Set([...entries.remove, ...entries.put.map(({ id }) => id)]);
  const staying = present.entries.filter(({ id }) => !leaving.has(id)).concat(entries.put);
  const inUse = new Set(staying.map(({ poolId }) => poolId));
  const pools = undoOf(present.pools, record.added.pools, record.replaced.pools);
  const shown = new Set(staying.map((entry) => (entry.kind === 'reading' ? entry.pictureId : null)));
  const scaleTexts = new Map(present.scales.map((scale) => [scale.id, JSON.stringify(scale)]));
  return {
    removeEntries: entries.remove,
    removePools: pools.remove.filter((id) => !inUse.has(id)),
    removeScales: record.added.scales
      .filter((scale) => scaleTexts.get(scale.id) === JSON.stringify(scale))
      .map(({ id }) => id),
    removePictures: record.added.pictureIds.filter((id) => !shown.has(id)),
    putEntries: entries.put,
    putPools: pools.put,
    putInBin: record.outOfBin.filter(({ id }) => leaving.has(id)),
    choices,
    kept: entries.kept + pools.kept + choices.kept,
  };
}

function undoOf<T extends { readonly id: string; readonly revision: number }>(
  present: readonly T[],
  added: readonly T[],
  replaced: readonly Replacement<T>[],
): { remove: string[]; put: T[]; kept: number } {
  const revisions = new Map(present.map(({ id, revision }) => [id, revision]));
  const untouched = (item: T) => revisions.get(item.id) === item.revision;
  const remove = added.filter(untouched).map(({ id }) => id);
  const put = replaced.filter(({ after }) => untouched(after)).map(({ before }) => before);
  const touched = (item: T) => revisions.has(item.id) && !untouched(item);
  const kept = added.filter(touched).length + replaced.filter(({ after }) => touched(after)).length;
  return { remove, put, kept };
}
