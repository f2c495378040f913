/** Files into a logbook's store and out of it again: beside the page, or in it where the store is the page's own. */
import type { Choice, ChoiceChanges } from '../../core/log/choices.ts';
import type { FilePicture, FileProblem, ReadFile } from '../../core/log/incoming.ts';
import { type MergeOutline, type MergePlan, outlineOf } from '../../core/log/merge.ts';
import { importRecord, planUndo } from '../../core/log/undo.ts';
import type { TableFound } from '../../core/log/wide-table.ts';
import { importFile, undoImport, withClock } from './changes.ts';
import { StoreError } from './failure.ts';
import { type FileQuestion, type FileStage, findInFile } from './read-file.ts';
import type { LogStore } from './store.ts';
import type { Operation } from './tables.ts';

export type LookedInto =
  | Extract<ReadFile, { ok: false }>
  | {
      readonly ok: true;
      readonly outline: MergeOutline;
      readonly problems: readonly FileProblem[];
      readonly table: TableFound | null;
    };

/** A file as it was chosen, and what is chosen here. */
export interface ChosenFile extends Omit<FileQuestion, 'present'> {
  readonly choices: readonly Choice[];
}

export interface BringIn {
  /** Of the record, by which it is taken back. */
  readonly id: string;
  readonly time: string;
  readonly fileName: string;
  /** That the visitor agreed to. */
  readonly choices: ChoiceChanges;
}

export interface TakeBack {
  readonly id: string;
  readonly time: string;
  /** For what the import had taken out of the bin. */
  readonly binId: string;
}

export interface TakenBack {
  /** How many things were changed since and so stay. */
  readonly kept: number;
  /** What it did to plans. */
  readonly plans: readonly Operation[];
}

export interface Desk {
  look(file: ChosenFile): Promise<LookedInto>;
  /** Brings in what was looked into last. Throws a StoreError when nothing was written. @returns what it did to plans */
  bringIn(about: BringIn): Promise<readonly Operation[]>;
  takeBack(about: TakeBack): Promise<TakenBack>;
  close(): void;
}

export class FileDesk implements Desk {
  readonly #store: LogStore;
  readonly #onStage: (stage: FileStage) => void;
  #held: { readonly plan: MergePlan; readonly pictures: readonly FilePicture[] } | null = null;

  constructor(store: LogStore, onStage: (stage: FileStage) => void = () => undefined) {
    [this.#store, this.#onStage] = [store, onStage];
  }

  async look({ choices, ...question }: ChosenFile): Promise<LookedInto> {
    const bin = await this.#store.all('bin');
    const present = {
      ...(await this.#contents()),
      choices,
      binned: new Set(bin.flatMap(({ entries }) => entries.map(({ id }) => id))),
      pictureIds: new Set(await this.#store.ids('pictures')),
    };
    const found = await findInFile({ ...question, present }, this.#onStage);
    if (!found.ok) return found;
    const { plan, read } = found;
    this.#held = { plan, pictures: read.incoming.pictures };
    return { ok: true, outline: outlineOf(plan), problems: read.problems, table: read.table ?? null };
  }

  async bringIn({ choices, ...about }: BringIn): Promise<readonly Operation[]> {
    if (!this.#held) throw new StoreError('broken');
    this.#onStage('writing');
    const { pictures } = this.#held;
    const plan = { ...this.#held.plan, choices };
    const bin = await this.#store.all('bin');
    const out = new Set(plan.outOfBin);
    const binned = bin.flatMap(({ entries }) => entries.filter(({ id }) => out.has(id)));
    const change = importFile(plan, pictures, importRecord(plan, { ...about, binned }), bin);
    await this.#store.write(withClock(change, about.time));
    return change.operations.filter(isPlan);
  }

  async takeBack({ id, time, binId }: TakeBack): Promise<TakenBack> {
    this.#onStage('comparing');
    const record = await this.#store.get('imports', id);
    if (!record) throw new StoreError('conflict');
    const undo = planUndo({ ...(await this.#contents()), choices: [] }, record);
    this.#onStage('writing');
    const change = undoImport(record, undo, binId);
    await this.#store.write(withClock(change, time));
    const came = new Set(record.added.entries.filter(({ kind }) => kind === 'plan').map((entry) => entry.id));
    const gone = change.operations.filter((one) => one.table === 'entries' && 'remove' in one && came.has(one.remove));
    return { kept: undo.kept, plans: [...gone, ...change.operations.filter(isPlan)] };
  }

  async #contents() {
    const [pools, entries, scales] = await Promise.all([
      this.#store.all('pools'),
      this.#store.all('entries'),
      this.#store.all('scales'),
    ]);
    return { pools, entries, scales };
  }

  close(): void {
    this.#held = null;
  }
}

function isPlan(operation: Operation): boolean {
  return operation.table === 'entries' && 'put' in operation && operation.put.kind === 'plan';
}
