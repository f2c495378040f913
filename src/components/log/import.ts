/** Bringing a file in: read, told what it would do, done on the visitor's word, and undone again. */
import { keptChoices, putChoices, removeChoices } from '../../browser/choices.ts';
import { importFile, undoImport } from '../../browser/store/changes.ts';
import { newId, zoneMinutesAt } from '../../browser/store/ids.ts';
import type { Logbook } from '../../browser/store/logbook.ts';
import { type ChoiceGroup, consented } from '../../core/log/choices.ts';
import type { FileFindings, FileQuestion } from '../../browser/store/read-file.ts';
import type { FileProblem, Incoming, ReadFile } from '../../core/log/incoming.ts';
import { isIdle, type MergePlan } from '../../core/log/merge.ts';
import { type ImportRecord, importRecord, planUndo } from '../../core/log/undo.ts';

/** A season of pictures is a few dozen megabytes; beyond this a phone's browser would give up. */
export const MAX_FILE_BYTES = 300_000_000;

export interface Preview {
  readonly fileName: string;
  readonly plan: MergePlan;
  readonly incoming: Incoming;
  readonly problems: readonly FileProblem[];
}

/** What a file would do. @param find looks into the file; rejects when it is cancelled or fails */
export async function previewFile(
  logbook: Logbook,
  { file, name }: { readonly file: Blob; readonly name: string },
  find: (question: FileQuestion) => Promise<FileFindings>,
): Promise<{ ok: true; preview: Preview } | Extract<ReadFile, { ok: false }>> {
  const { store } = logbook;
  const bin = await store.all('bin');
  const now = new Date();
  const question: FileQuestion = {
    file,
    present: {
      pools: await store.all('pools'),
      entries: await store.all('entries'),
      scales: await store.all('scales'),
      choices: keptChoices(),
      binned: new Set(bin.flatMap(({ entries }) => entries.map(({ id }) => id))),
      pictureIds: new Set(await store.ids('pictures')),
    },
    now: now.toISOString(),
    zoneMinutes: zoneMinutesAt(now),
    poolId: (await logbook.pool()).id,
  };
  const findings = await find(question);
  if (!findings.ok) return findings;
  const { incoming, problems } = findings.read;
  return { ok: true, preview: { fileName: name, plan: findings.plan, incoming, problems } };
}

/**
 * Throws a StoreError when nothing was brought in, also when the logbook has changed since the preview.
 * @param groups of the visitor's choices that the file's may take the place of
 * @returns whether there was anything to bring in
 */
export async function applyImport(
  logbook: Logbook,
  { plan: proposed, incoming, fileName }: Preview,
  groups: ReadonlySet<ChoiceGroup> = new Set(),
): Promise<boolean> {
  const plan = { ...proposed, choices: consented(proposed.choices, groups) };
  if (isIdle(plan)) return false;
  const bin = await logbook.store.all('bin');
  const out = new Set(plan.outOfBin);
  const binned = bin.flatMap(({ entries }) => entries.filter(({ id }) => out.has(id)));
  const about = { id: newId(), time: new Date().toISOString(), fileName: fileName.slice(0, 200), binned };
  await logbook.write(importFile(plan, incoming.pictures, importRecord(plan, about), bin), true);
  // After the record of it, so that whatever comes between can still be taken back.
  putChoices([...plan.choices.add, ...plan.choices.replace.map(({ after }) => after)]);
  logbook.announce();
  return true;
}

/** @returns how many things were changed since and so stay */
export async function takeBack(logbook: Logbook, record: ImportRecord): Promise<number> {
  const { store } = logbook;
  const present = {
    pools: await store.all('pools'),
    entries: await store.all('entries'),
    scales: await store.all('scales'),
    choices: keptChoices(),
  };
  const undo = planUndo(present, record);
  const { remove, put } = undo.choices;
  await logbook.write(undoImport(record, undo, newId()), true);
  removeChoices(remove);
  putChoices(put);
  logbook.announce();
  return undo.kept;
}
