/** The page's side of a file: a worker of its own, ended when the visitor cancels. */
import { abortError } from '../abort.ts';
import { StoreError } from './failure.ts';
import type { BringIn, ChosenFile, Desk, LookedInto, TakeBack, TakenBack } from './file-desk.ts';
import type { FileAnswer, FileRequest } from './file-worker.ts';
import workerUrl from './file-worker.ts?worker&url';
import type { FileStage } from './read-file.ts';
import type { Operation } from './tables.ts';

/** Rejects with a DOMException 'AbortError' once it is closed: a change that was being written is then not written, or whole. */
export class DeskBeside implements Desk {
  readonly #worker = new Worker(workerUrl, { type: 'module', name: 'logbook file' });
  readonly #onStage: (stage: FileStage) => void;
  readonly #closing = new AbortController();

  constructor(onStage: (stage: FileStage) => void) {
    this.#onStage = onStage;
  }

  look(about: ChosenFile): Promise<LookedInto> {
    return this.#ask({ does: 'look', about });
  }

  bringIn(about: BringIn): Promise<readonly Operation[]> {
    return this.#ask({ does: 'bringIn', about });
  }

  takeBack(about: TakeBack): Promise<TakenBack> {
    return this.#ask({ does: 'takeBack', about });
  }

  #ask<Answer>(request: FileRequest): Promise<Answer> {
    const { signal } = this.#closing;
    return new Promise<Answer>((resolve, reject) => {
      if (signal.aborted) return reject(abortError());
      signal.addEventListener('abort', () => reject(abortError()));
      this.#worker.onerror = (event) => reject(new Error(event.message || 'the worker could not be started'));
      this.#worker.onmessage = ({ data }: MessageEvent<FileAnswer>) => {
        if ('stage' in data) this.#onStage(data.stage);
        else if ('done' in data) resolve(data.done as Answer);
        else reject(new StoreError(data.failed, data.why));
      };
      this.#worker.postMessage(request);
    });
  }

  close(): void {
    this.#closing.abort();
    this.#worker.terminate();
  }
}
