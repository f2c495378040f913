/** The page's side of looking and reading: one at a time, a reading cancelled by ending the worker. */
import type { Glimpse } from '../core/capture/glimpse.ts';
import type { ReadOutcome } from '../core/reading/reading.ts';
import type { StripScale } from '../core/scale/schema.ts';
import type { Picture, ReadResult, ReadStage, WorkerRequest, WorkerResponse } from '../vision/messages.ts';
import { phoneNoise } from './phone-noise.ts';
import { abortError } from './abort.ts';
import { ask, awakeWorker, endWorker, startVisionWorker } from './vision-worker.ts';

/** The engine's memory never shrinks: a worker that has nothing to do is let go. */
const IDLE_MILLIS = 90_000;

export class VisionClient {
  #worker: Worker | null = null;
  #idleTimer: ReturnType<typeof setTimeout> | undefined;
  #looking: Promise<unknown> = Promise.resolve();

  /**
   * Starts the worker where there is none, and lets it read a drawn photo until the visitor's own has come: a first
   * reading takes several times as long otherwise.
   * @param onRehearsed told what was read of it, once, where no other has come by then
   */
  warmUp(scale: StripScale, onRehearsed: (reading: ReadOutcome) => void): void {
    const worker = this.#worker ?? startVisionWorker();
    if (!this.#worker) {
      this.#worker = worker;
      // One that couldn't be fetched would never answer: the reading starts another.
      worker.onerror = () => {
        if (this.#worker === worker) this.close();
      };
      worker.addEventListener('message', ({ data }: MessageEvent<WorkerResponse>) => {
        if (data.kind === 'rehearsed' && data.reading.outcome === 'read') onRehearsed(data.reading);
      });
    }
    worker.postMessage({ kind: 'warm-up', scale } satisfies WorkerRequest);
    this.#letGoLater();
  }

  /**
   * Takes over the picture. One call at a time: abort the one before first. `which` chooses among several cards.
   * Rejects with an AbortError when `signal` aborts, with an Error when the engine fails.
   */
  async read(
    picture: Picture,
    scale: StripScale,
    onStage: (stage: ReadStage) => void,
    signal: AbortSignal,
    which: number | null = null,
  ): Promise<ReadResult> {
    clearTimeout(this.#idleTimer);
    // Waits for a look that is under way: it takes a tenth of a second, and its worker is warmed up.
    await this.#looking.catch(() => undefined);
    const worker = await this.#awakeFor(picture, signal);
    try {
      const request = { kind: 'read', picture, scale, which, phoneSigma: phoneNoise() } as const;
      const result = await ask(worker, request, [picture], signal, (response) => {
        if (response.kind === 'stage') onStage(response.stage);
        return response.kind === 'done' ? response.result : undefined;
      });
      this.#letGoLater();
      return result;
    } catch (error) {
      if (this.#worker === worker) this.close();
      else endWorker(worker);
      throw error;
    }
  }

  /** Takes over a frame of the preview. Rejects when the engine fails; the next look starts another. */
  async look(picture: Picture, scale: StripScale, isClose: boolean): Promise<Glimpse> {
    const looking = this.#look(picture, scale, isClose);
    this.#looking = looking;
    return looking;
  }

  async #look(picture: Picture, scale: StripScale, isClose: boolean): Promise<Glimpse> {
    clearTimeout(this.#idleTimer);
    const { signal } = new AbortController();
    const worker = await this.#awakeFor(picture, signal);
    // Teaching photos say nothing about where pads are.
    const request: WorkerRequest = { kind: 'track', picture, scale: { ...scale, teachings: [] }, isClose };
    try {
      const glimpse = await ask(worker, request, [picture], signal, (response) =>
        response.kind === 'tracked' ? response.glimpse : undefined,
      );
      this.#letGoLater();
      return glimpse;
    } catch (error) {
      endWorker(worker);
      if (this.#worker === worker) this.#worker = null;
      throw error;
    }
  }

  /** A worker that can take the picture. Closes the picture where there is none, or nobody waits any more. */
  async #awakeFor(picture: Picture, signal: AbortSignal): Promise<Worker> {
    const first = (this.#worker ??= startVisionWorker());
    try {
      const worker = await unlessAborted(awakeWorker(first), signal);
      // Meanwhile this client may have been closed, or begun with another.
      if (this.#worker === first) this.#worker = worker;
      return worker;
    } catch (error) {
      picture.close();
      if (!signal.aborted && this.#worker === first) this.#worker = null;
      throw error;
    }
  }

  #letGoLater(): void {
    clearTimeout(this.#idleTimer);
    this.#idleTimer = setTimeout(() => this.close(), IDLE_MILLIS);
  }

  /** Whatever is being asked rejects with an AbortError. */
  close(): void {
    clearTimeout(this.#idleTimer);
    const worker = this.#worker;
    this.#worker = null;
    if (worker) endWorker(worker);
  }
}

/** @throws DOMException 'AbortError' as soon as the signal aborts */
async function unlessAborted<T>(promise: Promise<T>, signal: AbortSignal): Promise<T> {
  const ending = new AbortController();
  const aborted = new Promise<never>((_, reject) => {
    if (signal.aborted) reject(abortError());
    else signal.addEventListener('abort', () => reject(abortError()), { signal: ending.signal });
  });
  try {
    return await Promise.race([promise, aborted]);
  } finally {
    ending.abort();
  }
}
