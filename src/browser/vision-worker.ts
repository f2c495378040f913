/** One question at a time to a vision worker. */
import type { WorkerRequest, WorkerResponse } from '../vision/messages.ts';

export function startVisionWorker(): Worker {
  return new Worker(new URL('../vision/worker.ts', import.meta.url), { type: 'module', name: 'vision' });
}

/**
 * Puts a question and waits for its answer. Rejects with an AbortError when `signal` aborts, with an Error when the
 * worker fails; in both cases the worker is of no more use.
 * @param take gets each response; anything but undefined is the answer
 */
export function ask<Answer>(
  worker: Worker,
  request: WorkerRequest,
  transfer: readonly Transferable[],
  signal: AbortSignal,
  take: (response: WorkerResponse) => Answer | undefined,
): Promise<Answer> {
  return new Promise<Answer>((resolve, reject) => {
    const finish = (settle: () => void) => {
      signal.removeEventListener('abort', abort);
      worker.onmessage = worker.onerror = worker.onmessageerror = null;
      settle();
    };
    const fail = (message: string) => finish(() => reject(new Error(message)));
    const abort = () => finish(() => reject(abortError()));
    worker.onmessage = ({ data }: MessageEvent<WorkerResponse>) => {
      if (data.kind === 'failed') return fail(data.message);
      const answer = take(data);
      if (answer !== undefined) finish(() => resolve(answer));
    };
    worker.onerror = (event) => fail(event.message || 'the worker could not be started');
    worker.onmessageerror = () => fail('the worker’s answer could not be read');
    signal.addEventListener('abort', abort);
    worker.postMessage(request, [...transfer]);
  });
}

export function abortError(): DOMException {
  return new DOMException('cancelled', 'AbortError');
}
