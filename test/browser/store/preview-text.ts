/** What a file of this text would do to a logbook, worked out here instead of in a worker. */
import { FileDesk } from '../../../src/browser/store/file-desk.ts';
import type { Logbook } from '../../../src/browser/store/logbook.ts';
import { previewFile } from '../../../src/components/log/import.ts';

export async function previewText(logbook: Logbook, name: string, text: string) {
  const desk = new FileDesk(logbook.store);
  const result = await previewFile(logbook, { file: new Blob([text]), name }, desk);
  return { ...result, desk };
}
