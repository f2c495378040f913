/** The page's side of looking into a file: a worker of its own, ended when the visitor cancels. */
import type { FileAnswer } from './file-worker.ts';
import workerUrl from './file-worker.ts?worker&url';
import type { FileFindings, FileQuestion, FileStage } from './read-file.ts';

/** @throws DOMException 'AbortError' when `signal` aborts; Error when the worker fails */
export async function findInFileBeside(
  question: FileQuestion,
  onStage: (stage: FileStage) => void,
  signal: AbortSignal,
): Promise<FileFindings> {
  const worker = new Worker(workerUrl, { type: 'module', name: 'logbook file' });
  const findings = new Promise<FileFindings>((resolve, reject) => {
    signal.addEventListener('abort', () => reject(new DOMException('cancelled', 'AbortError')));
    worker.onerror = (event) => reject(new Error(event.message || 'the worker could not be started'));
    worker.onmessage = ({ data }: MessageEvent<FileAnswer>) => {
      if ('stage' in data) onStage(data.stage);
      else if ('findings' in data) resolve(data.findings);
      else reject(new Error(data.failed));
    };
    worker.postMessage(question);
  });
  try {
    return await findings;
  } finally {
    worker.terminate();
  }
}
