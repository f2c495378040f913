/** The page's side of reading a photo: one at a time, cancelled by ending the worker. */
import type { StripScale } from '../core/scale/schema.ts';
import type { ReadResult, ReadStage } from '../vision/messages.ts';
import { abortError, ask, startVisionWorker } from './vision-worker.ts';

/** The engine's memory never shrinks: a worker that has nothing to do is let go. */
const IDLE_MILLIS = 90_000;

export class VisionClient {
  #worker: Worker | null = null;
  #idleTimer: ReturnType<typeof setTimeout> | undefined;

  /**
   * Takes over the bitmap. One call at a time: abort the one before first. `which` chooses among several cards.
   * Rejects with an AbortError when `signal` aborts, with an Error when the engine fails.
   */
  async read(
    bitmap: ImageBitmap,
    scale: StripScale,
    onStage: (stage: ReadStage) => void,
    signal: AbortSignal,
    which: number | null = null,
  ): Promise<ReadResult> {
    clearTimeout(this.#idleTimer);
    if (signal.aborted) {
      bitmap.close();
      throw abortError();
    }
    const worker = (this.#worker ??= startVisionWorker());
    try {
      const result = await ask(worker, { kind: 'read', bitmap, scale, which }, [bitmap], signal, (response) => {
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

  close(): void {
    clearTimeout(this.#idleTimer);
    this.#worker?.terminate();
    this.#worker = null;
  }
}
