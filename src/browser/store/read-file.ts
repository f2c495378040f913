/** What a file would do to the logbook: read, checked, and compared with what is there. Seconds of work for a large one. */
import { type ReadFile, withinDates } from '../../core/log/incoming.ts';
import { type MergePlan, planMerge, type Present } from '../../core/log/merge.ts';
import { readLogCsv } from '../../core/log/read-csv.ts';
import { readLogJson } from '../../core/log/read-json.ts';
import type { TableChoice } from '../../core/log/wide-table.ts';
import { newId } from './ids.ts';

export interface FileQuestion {
  readonly file: Blob;
  readonly present: Present;
  readonly now: string;
  readonly zoneMinutes: number;
  /** Where entries go that name no pool. */
  readonly poolId: string;
  readonly locales: readonly string[];
  /** What the columns of an ordinary table hold, where the visitor has said so. */
  readonly table?: TableChoice | undefined;
}

export type FileStage = 'reading' | 'checking' | 'comparing' | 'writing';

export type FileFindings =
  | Extract<ReadFile, { ok: false }>
  | { readonly ok: true; readonly read: Extract<ReadFile, { ok: true }>; readonly plan: MergePlan };

export async function findInFile(
  { file, present, now, zoneMinutes, poolId, locales, table }: FileQuestion,
  onStage: (stage: FileStage) => void,
): Promise<FileFindings> {
  onStage('reading');
  const text = await textOf(file);
  if (text === null) return { ok: false, failure: 'not-text' };
  onStage('checking');
  const read = looksLikeJson(text)
    ? readLogJson(text)
    : readLogCsv(text, { newId, now, zoneMinutes, poolId, locales, table, pools: present.pools });
  const near = withinDates(read, now);
  if (!near.ok) return near;
  onStage('comparing');
  return { ok: true, read: near, plan: planMerge(present, near.incoming) };
}

/** Null for what isn't UTF-8: letters would come in garbled without anyone being told. */
async function textOf(file: Blob): Promise<string | null> {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(await file.arrayBuffer());
  } catch {
    return null;
  }
}

function looksLikeJson(text: string): boolean {
  return /^\ufeff?\s*[[{]/.test(text);
}
