/** One question at a time to a vision worker. */
import type { WorkerRequest, WorkerResponse } from '../vision/messages.ts';
import { abortError, isAbort } from './abort.ts';
import workerUrl from '../vision/worker.ts?worker&url';
import { tellMended } from './mended.ts';

/** Settles once a worker's script has come and runs. */
const awakenings = new WeakMap<Worker, Promise<void>>();
/** Tells who waits for that that the worker was ended. */
const givenUp = new WeakMap<Worker, () => void>();

export function startVisionWorker(): Worker {
  const worker = new Worker(workerUrl, { type: 'module', name: 'vision' });
  const awake = new Promise<void>((resolve, reject) => {
    worker.addEventListener('message', () => resolve(), { once: true });
    givenUp.set(worker, () => reject(abortError()));
    worker.addEventListener('error', () => reject(new Error('the worker could not be started')), { once: true });
  });
  awake.catch(() => undefined);
  awakenings.set(worker, awake);
  return worker;
}

/**
 * The worker once it runs, or another one in its place: a script that arrived as something else is fetched again, past
 * the browser's own cache. A picture handed to a worker that never ran would be lost.
 */
export async function awakeWorker(worker: Worker): Promise<Worker> {
  try {
    await awakenings.get(worker);
    return worker;
  } catch (error) {
    if (isAbort(error)) throw error;
    worker.terminate();
    await (await fetch(workerUrl, { cache: 'reload' })).arrayBuffer();
    const another = startVisionWorker();
    await awakenings.get(another);
    tellMended();
    return another;
  }
}

/** What waits for an answer of each worker. */
const waiting = new WeakMap<Worker, () => void>();

/** Workers with a picture that isn't closed yet. */
const holding = new WeakSet<Worker>();
/** A warm-up may have to end first. */
const LONGEST_HOLD_MILLIS = 5000;

/**
 * Ends a worker; who waits for its answer gets an AbortError, so that nobody waits for ever. The worker itself goes once
 * the picture in its hands is closed: the memory of a frame that is lost isn't given back.
 */
export function endWorker(worker: Worker): void {
  givenUp.get(worker)?.();
  waiting.get(worker)?.();
  if (!holding.has(worker)) return worker.terminate();
  const end = () => {
    clearTimeout(timer);
    worker.terminate();
  };
  const timer = setTimeout(end, LONGEST_HOLD_MILLIS);
  worker.addEventListener('message', ({ data }: MessageEvent<WorkerResponse>) => {
    if (data.kind === 'taken' || data.kind === 'failed') end();
  });
}

/**
 * Puts a question and waits for its answer. Rejects with an AbortError when `signal` aborts or the worker is ended, with
 * an Error when the worker fails; in each case the worker is of no more use.
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
      waiting.delete(worker);
      worker.onmessage = worker.onerror = worker.onmessageerror = null;
      settle();
    };
    const fail = (message: string) => finish(() => reject(new Error(message)));
    const abort = () => finish(() => reject(abortError()));
    worker.onmessage = ({ data }: MessageEvent<WorkerResponse>) => {
      if (data.kind === 'failed') return fail(data.message);
      if (data.kind === 'taken') return void holding.delete(worker);
      const answer = take(data);
      if (answer !== undefined) finish(() => resolve(answer));
    };
    worker.onerror = (event) => fail(event.message || 'the worker could not be started');
    worker.onmessageerror = () => fail('the worker’s answer could not be read');
    if (signal.aborted) {
      for (const picture of transfer) (picture as Partial<ImageBitmap>).close?.();
      return abort();
    }
    signal.addEventListener('abort', abort);
    waiting.set(worker, abort);
    if (transfer.length > 0) holding.add(worker);
    worker.postMessage(request, [...transfer]);
  });
}
