/** Bringing a file in: read, told what it would do, done on the visitor's word, and undone again. */
import { keptChoices, putChoices, removeChoices } from '../../browser/choices.ts';
import type { Desk } from '../../browser/store/file-desk.ts';
import { newId, zoneMinutesAt } from '../../browser/store/ids.ts';
import type { Logbook } from '../../browser/store/logbook.ts';
import { isAbort } from '../../browser/abort.ts';
import { type ChoiceGroup, consented, undoChoices } from '../../core/log/choices.ts';
import type { FileProblem, ReadFile } from '../../core/log/incoming.ts';
import { isIdle, type MergeOutline } from '../../core/log/merge.ts';
import type { ImportRecord } from '../../core/log/undo.ts';
import type { TableChoice, TableFound } from '../../core/log/wide-table.ts';

/** A season of pictures is a few dozen megabytes; beyond this a phone's browser would give up. */
export const MAX_FILE_BYTES = 300_000_000;

export interface Preview {
  readonly fileName: string;
  readonly plan: MergeOutline;
  readonly problems: readonly FileProblem[];
  /** What the columns of an ordinary table were taken for. */
  readonly table: TableFound | null;
}

/**
 * What a file would do. Rejects when it is cancelled or fails.
 * @param table what the columns of an ordinary table hold, where the visitor has said so
 */
export async function previewFile(
  logbook: Logbook,
  { file, name }: { readonly file: Blob; readonly name: string },
  desk: Desk,
  table?: TableChoice,
): Promise<{ ok: true; preview: Preview } | Extract<ReadFile, { ok: false }>> {
  const now = new Date();
  const found = await desk.look({
    file,
    choices: keptChoices(),
    now: now.toISOString(),
    zoneMinutes: zoneMinutesAt(now),
    poolId: (await logbook.pool()).id,
    locales: [...navigator.languages],
    table,
  });
  if (!found.ok) return found;
  const { outline, problems, table: columns } = found;
  return { ok: true, preview: { fileName: name, plan: outline, problems, table: columns } };
}

/**
 * Throws a StoreError when nothing was brought in, also when the logbook has changed since the preview.
 * @param desk that the preview came from
 * @param groups of the visitor's choices that the file's may take the place of
 * @returns whether there was anything to bring in
 */
export async function applyImport(
  logbook: Logbook,
  { plan, fileName }: Preview,
  desk: Desk,
  groups: ReadonlySet<ChoiceGroup> = new Set(),
): Promise<boolean> {
  const choices = consented(plan.choices, groups);
  if (isIdle({ ...plan, choices })) return false;
  const id = newId();
  const about = { id, time: new Date().toISOString(), fileName: fileName.slice(0, 200), choices };
  const isThere = async () => (await logbook.store.ids('imports')).includes(id);
  await logbook.written((await unlessDone(desk.bringIn(about), isThere)) ?? []);
  // After the record of it, so that whatever comes between can still be taken back.
  putChoices([...choices.add, ...choices.replace.map(({ after }) => after)]);
  logbook.announce();
  return true;
}

/** @returns how many things were changed since and so stay; null where that isn't known */
export async function takeBack(
  logbook: Logbook,
  { id, choices }: Pick<ImportRecord, 'id' | 'choices'>,
  desk: Desk,
): Promise<number | null> {
  const undo = undoChoices(keptChoices(), choices);
  const about = { id, time: new Date().toISOString(), binId: newId() };
  const isGone = async () => !(await logbook.store.ids('imports')).includes(id);
  const taken = await unlessDone(desk.takeBack(about), isGone);
  await logbook.written(taken?.plans ?? []);
  removeChoices(undo.remove);
  putChoices(undo.put);
  logbook.announce();
  return taken && taken.kept + undo.kept;
}

/** Cancelled in the moment of writing, it is whole or not at all: the store says which. @returns null where it is whole */
async function unlessDone<T>(work: Promise<T>, isDone: () => Promise<boolean>): Promise<T | null> {
  try {
    return await work;
  } catch (error) {
    if (isAbort(error) && (await isDone())) return null;
    throw error;
  }
}
