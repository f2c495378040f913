/** Those who read: one in this thread, or several in threads of their own. */
import { once } from 'node:events';
import { extname } from 'node:path';
import { Worker } from 'node:worker_threads';
import { type AskReader, type PhotoAnswer, type ReaderOptions, startReader, stoppedAt } from './reader.ts';

/** Answers that may wait for a slow photo before them, for each who reads. */
const AHEAD = 4;

export interface Crew {
  readonly ask: AskReader;
  /** How many photos may be asked for before the first has been answered. */
  readonly ahead: number;
  readonly end: () => Promise<void>;
}

export async function crewOf(jobs: number, photos: number, options: ReaderOptions): Promise<Crew> {
  const count = Math.min(jobs, photos);
  if (count === 1) return { ask: startReader(options), ahead: 1, end: () => Promise.resolve() };
  const threads = new Set<ReaderThread>();
  const begin = async () => {
    const thread = await ReaderThread.start(options);
    threads.add(thread);
    return thread;
  };
  const free = await Promise.all(Array.from({ length: count }, begin));
  const queue: ((thread: ReaderThread) => void)[] = [];
  let isOver = false;
  const ask: AskReader = async (path) => {
    const thread = free.pop() ?? (await new Promise<ReaderThread>((resolve) => queue.push(resolve)));
    const answer = await thread.ask(path);
    if (isOver) return stoppedAt(path);
    if (!answer) threads.delete(thread);
    const next = answer ? thread : await begin();
    const waiting = queue.shift();
    if (waiting) waiting(next);
    else free.push(next);
    return answer ?? stoppedAt(path);
  };
  const end = async () => {
    isOver = true;
    await Promise.all([...threads].map((thread) => thread.end()));
  };
  return { ask, ahead: AHEAD * count, end };
}

class ReaderThread {
  readonly #worker: Worker;
  /** Gets the next answer; null where the thread has come to its end. */
  #told: (answer: PhotoAnswer | null) => void = () => undefined;

  private constructor(worker: Worker) {
    this.#worker = worker;
    worker.on('message', (answer: PhotoAnswer) => this.#told(answer));
    worker.on('error', () => this.#told(null));
    worker.on('exit', () => this.#told(null));
  }

  static async start(options: ReaderOptions): Promise<ReaderThread> {
    const worker = new Worker(new URL(`worker${extname(import.meta.url)}`, import.meta.url), { workerData: options });
    // It says that it is ready.
    await once(worker, 'message');
    return new ReaderThread(worker);
  }

  /** @returns null where the thread came to its end over this photo */
  ask(path: string): Promise<PhotoAnswer | null> {
    return new Promise((resolve) => {
      this.#told = resolve;
      this.#worker.postMessage(path);
    });
  }

  async end(): Promise<void> {
    await this.#worker.terminate();
  }
}
