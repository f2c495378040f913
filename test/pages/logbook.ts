/** Steps that the tests of the logbook share. */
import { expect, type Page } from '@playwright/test';
import { readFileSync } from 'node:fs';
import type { Choice } from '../../src/core/log/choices.ts';
import type { FilePicture } from '../../src/core/log/incoming.ts';
import type { LogData } from '../../src/core/log/schema.ts';
import { writeLogJson } from '../../src/core/log/write-json.ts';

export async function openLog(page: Page): Promise<void> {
  await page.goto('/log/');
  await expect(page.locator('log-desk')).toHaveAttribute('data-ready', '');
}

export async function jsonOf(
  data: LogData,
  pictures: readonly FilePicture[] = [],
  choices: readonly Choice[] = [],
): Promise<string> {
  const parts: string[] = [];
  const file = writeLogJson({ ...data, scales: [], choices }, pictures, '2026-09-01T00:00:00.000Z', 'A logbook.');
  for await (const part of file) parts.push(part);
  return parts.join('');
}

export async function chooseFile(page: Page, name: string, text: string): Promise<void> {
  await page.setInputFiles('#log-file', { name, mimeType: 'application/octet-stream', buffer: Buffer.from(text) });
}

export async function bringIn(page: Page, text: string, name = 'logbook.json'): Promise<void> {
  await chooseFile(page, name, text);
  await page.getByRole('button', { name: 'Bring it in' }).click();
  await expect(page.locator('.transfer-said')).toContainText('in the logbook');
}

export async function saved(page: Page, button: string): Promise<string> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button }).click(),
  ]);
  return readFileSync(await download.path(), 'utf8');
}

export interface Stored {
  readonly entries: readonly {
    readonly id: string;
    readonly note: string;
    readonly pictureId?: string | null;
    readonly sinceDipSeconds?: unknown;
    readonly warnings?: unknown;
  }[];
  readonly pictures: readonly { readonly id: string; readonly bytes: number }[];
  readonly imports: readonly { readonly id: string; readonly fileName: string }[];
  readonly bin: readonly unknown[];
  /** How many strip scales. */
  readonly scales: number;
}

/** What lies in the browser's store, read past all of the site's own code. */
export function stored(page: Page): Promise<Stored> {
  return page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('dipwise-log');
      opening.onsuccess = () => resolve(opening.result);
      opening.onerror = () => reject(new Error('the store can’t be opened'));
    });
    const all = (table: string) =>
      new Promise<Record<string, unknown>[]>((resolve) => {
        const request = db.transaction(table).objectStore(table).getAll();
        request.onsuccess = () => resolve(request.result as Record<string, unknown>[]);
      });
    const tables = ['entries', 'pictures', 'imports', 'bin', 'scales'];
    const [entries, pictures, imports, bin, scales] = await Promise.all(tables.map(all));
    db.close();
    return {
      entries: entries!.map(({ id, note, pictureId, sinceDipSeconds, warnings }) => ({
        id,
        note,
        pictureId,
        sinceDipSeconds,
        warnings,
      })),
      pictures: pictures!.map(({ id, jpeg }) => ({ id, bytes: (jpeg as Uint8Array).length })),
      imports: imports!.map(({ id, fileName }) => ({ id, fileName })),
      bin: bin!,
      scales: scales!.length,
    } as unknown as Stored;
  });
}
