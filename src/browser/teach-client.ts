/** The page's side of teaching a scale: a worker that keeps the photo of the chart while its blocks are marked. */
import type { Point } from '../core/card/homography.ts';
import type { CardSamples } from '../core/samples.ts';
import type { RefusalCode } from '../core/reading/reading.ts';
import type {
  BlockSearch,
  ChartFound,
  Picture,
  StripFound,
  WorkerRequest,
  WorkerResponse,
} from '../vision/messages.ts';
import { abortError } from './abort.ts';
import { ask, awakeWorker, endWorker, startVisionWorker } from './vision-worker.ts';

export type Opening<Found> =
  { readonly ok: true; readonly found: Found } | { readonly ok: false; readonly reason: RefusalCode };

export class TeachClient {
  #worker: Worker | null = null;
  #ending = new AbortController();
  /** Settles when the question before has been answered. */
  #last: Promise<unknown> = Promise.resolve();

  /** Takes over the picture. */
  openChart(picture: Picture): Promise<Opening<ChartFound>> {
    return this.#ask({ kind: 'open-chart', picture }, [picture], (response) =>
      response.kind === 'chart' ? { ok: true, found: response.found } : refusalIn(response),
    );
  }

  /** Blocks of the chart opened last, at places in its photo, px. */
  blocks(places: readonly Point[]): Promise<readonly BlockSearch[]> {
    return this.#ask({ kind: 'blocks', places }, [], blocksIn);
  }

  /** As many blocks as counted, evenly from one place to another. */
  row(from: Point, to: Point, count: number): Promise<readonly BlockSearch[]> {
    return this.#ask({ kind: 'row', from, to, count }, [], blocksIn);
  }

  /** Takes over the picture. */
  openStrip(picture: Picture, padCount: number): Promise<Opening<StripFound>> {
    return this.#ask({ kind: 'open-strip', picture, padCount }, [picture], (response) =>
      response.kind === 'strip' ? { ok: true, found: response.found } : refusalIn(response),
    );
  }

  /** Takes over the picture: one of the empty card. */
  openCard(picture: Picture): Promise<Opening<CardSamples>> {
    return this.#ask({ kind: 'open-card', picture }, [picture], (response) =>
      response.kind === 'card' ? { ok: true, found: response.samples } : refusalIn(response),
    );
  }

  /** Whatever is being asked rejects with an AbortError; the photo is forgotten. Done by itself when a question fails. */
  close(): void {
    this.#ending.abort();
    this.#ending = new AbortController();
    const worker = this.#worker;
    this.#worker = null;
    if (worker) endWorker(worker);
  }

  #ask<Answer>(
    request: WorkerRequest,
    transfer: readonly Picture[],
    take: (response: WorkerResponse) => Answer | undefined,
  ): Promise<Answer> {
    const { signal } = this.#ending;
    const put = async () => {
      if (signal.aborted) {
        for (const picture of transfer) picture.close();
        throw abortError();
      }
      const first = (this.#worker ??= startVisionWorker());
      const worker = await awakeWorker(first);
      if (this.#worker === first) this.#worker = worker;
      return ask(worker, request, transfer, signal, take);
    };
    const answer = this.#last.then(put, put);
    this.#last = answer.catch(() => {
      // What was given up has been cleared away already.
      if (!signal.aborted) this.close();
    });
    return answer;
  }
}

function refusalIn(response: WorkerResponse): { ok: false; reason: RefusalCode } | undefined {
  return response.kind === 'refused' ? { ok: false, reason: response.reason } : undefined;
}

function blocksIn(response: WorkerResponse): readonly BlockSearch[] | undefined {
  return response.kind === 'blocks' ? response.blocks : undefined;
}
