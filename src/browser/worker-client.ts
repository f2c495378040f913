/** The page's side of looking and reading: one at a time, a reading cancelled by ending the worker. */
import type { Glimpse } from '../core/capture/glimpse.ts';
import type { StripScale } from '../core/scale/schema.ts';
import type { Picture, ReadResult, ReadStage, WorkerRequest } from '../vision/messages.ts';
import { abortError, ask, startVisionWorker } from './vision-worker.ts';

/** The engine's memory never shrinks: a worker that has nothing to do is let go. */
const IDLE_MILLIS = 90_000;

export class VisionClient {
  #worker: Worker | null = null;
  #idleTimer: ReturnType<typeof setTimeout> | undefined;
  #looking: Promise<unknown> = Promise.resolve();

  /**
   * Starts the worker and lets it read a drawn photo, for the time until the visitor's comes: a first reading takes twice
   * as long otherwise. Does nothing where a worker is there already.
   */
  rehearse(scale: StripScale): void {
    if (this.#worker) return;
    const worker = (this.#worker = startVisionWorker());
    // One that couldn't be fetched would never answer: the reading starts another.
    worker.onerror = () => {
      if (this.#worker === worker) this.close();
    };
    worker.postMessage({ kind: 'rehearse', scale } satisfies WorkerRequest);
    this.#idleTimer = setTimeout(() => this.close(), IDLE_MILLIS);
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
    // A look takes a tenth of a second, and the worker that took it is warm.
    await this.#looking.catch(() => undefined);
    if (signal.aborted) {
      picture.close();
      throw abortError();
    }
    const worker = (this.#worker ??= startVisionWorker());
    try {
      const result = await ask(worker, { kind: 'read', picture, scale, which }, [picture], signal, (response) => {
        if (response.kind === 'stage') onStage(response.stage);
        return response.kind === 'done' ? response.result : undefined;
      });
      this.#idleTimer = setTimeout(() => this.close(), IDLE_MILLIS);
      return result;
    } catch (error) {
      if (this.#worker === worker) this.close();
      else worker.terminate();
      throw error;
    }
  }

  /** Takes over a frame of the preview. Rejects when the engine fails; the next look starts another. */
  async look(picture: Picture, scale: StripScale, isClose: boolean): Promise<Glimpse> {
    clearTimeout(this.#idleTimer);
    const worker = (this.#worker ??= startVisionWorker());
    // Teaching photos say nothing about where pads are.
    const request: WorkerRequest = { kind: 'track', picture, scale: { ...scale, teachings: [] }, isClose };
    const looking = ask(worker, request, [picture], new AbortController().signal, (response) =>
      response.kind === 'tracked' ? response.glimpse : undefined,
    );
    this.#looking = looking;
    try {
      const glimpse = await looking;
      this.#idleTimer = setTimeout(() => this.close(), IDLE_MILLIS);
      return glimpse;
    } catch (error) {
      worker.terminate();
      if (this.#worker === worker) this.#worker = null;
      throw error;
    }
  }

  close(): void {
    clearTimeout(this.#idleTimer);
    this.#worker?.terminate();
    this.#worker = null;
  }
}
