/** What a file of this text would do to a logbook, worked out here instead of in a worker. */
import { findInFile } from '../../../src/browser/store/read-file.ts';
import type { Logbook } from '../../../src/browser/store/logbook.ts';
import { previewFile } from '../../../src/components/log/import.ts';

export function previewText(logbook: Logbook, name: string, text: string) {
  const find = (question: Parameters<typeof findInFile>[0]) => findInFile(question, () => undefined);
  return previewFile(logbook, { file: new Blob([text]), name }, find);
}
