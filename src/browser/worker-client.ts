/** The page's side of the vision worker: one photo at a time, cancelled by ending the worker. */
import type { StripScale } from '../core/scale/schema.ts';
import type { ReadResult, ReadStage, WorkerRequest, WorkerResponse } from '../vision/messages.ts';

/** The engine's memory never shrinks: a worker that has nothing to do is let go. */
const IDLE_MILLIS = 90_000;

export class VisionClient {
  #worker: Worker | null = null;
  #idleTimer: ReturnType<typeof setTimeout> | undefined;

  /**
   * Takes over the bitmap. One call at a time: abort the one before first.
   * Rejects with an AbortError when `signal` aborts, with an Error when the engine fails.
   */
  read(
    bitmap: ImageBitmap,
    scale: StripScale,
    onStage: (stage: ReadStage) => void,
    signal: AbortSignal,
  ): Promise<ReadResult> {
    clearTimeout(this.#idleTimer);
    if (signal.aborted) {
      bitmap.close();
      return Promise.reject(abortError());
    }
    const worker = (this.#worker ??= startWorker());
    return new Promise<ReadResult>((resolve, reject) => {
      const finish = (settle: () => void, keep: boolean) => {
        signal.removeEventListener('abort', abort);
        worker.onmessage = worker.onerror = worker.onmessageerror = null;
        if (keep) this.#idleTimer = setTimeout(() => this.close(), IDLE_MILLIS);
        else this.close();
        settle();
      };
      const fail = (message: string) => finish(() => reject(new Error(message)), false);
      const abort = () => finish(() => reject(abortError()), false);
      worker.onmessage = ({ data }: MessageEvent<WorkerResponse>) => {
        if (data.kind === 'stage') onStage(data.stage);
        else if (data.kind === 'done') finish(() => resolve(data.result), true);
        else fail(data.message);
      };
      worker.onerror = (event) => fail(event.message || 'the worker could not be started');
      worker.onmessageerror = () => fail('the worker’s answer could not be read');
      signal.addEventListener('abort', abort);
      worker.postMessage({ kind: 'read', bitmap, scale } satisfies WorkerRequest, [bitmap]);
    });
  }

  close(): void {
    clearTimeout(this.#idleTimer);
    this.#worker?.terminate();
    this.#worker = null;
  }
}

function startWorker(): Worker {
  return new Worker(new URL('../vision/worker.ts', import.meta.url), { type: 'module', name: 'vision' });
}

function abortError(): DOMException {
  return new DOMException('cancelled', 'AbortError');
}
