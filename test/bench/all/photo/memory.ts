/** Memory of a browser's processes while something runs. */
import type { Browser } from 'playwright';
import { readFile } from 'node:fs/promises';

export interface Sample {
  /** ms since 1970. */
  readonly at: number;
  readonly megabytes: number;
}

/** Between two looks, ms. */
const EVERY = 12;

/**
 * All the browser's processes together, each page of memory counted once however many share it (proportional set size,
 * `/proc/PID/smaps_rollup`), so a picture handed from one process to another isn't counted twice. Linux alone has it.
 */
export class MemoryWatch {
  readonly samples: Sample[] = [];
  readonly #pids: readonly number[];
  #running: Promise<void> | null = null;
  #isOver = false;

  private constructor(pids: readonly number[]) {
    this.#pids = pids;
  }

  /** @returns null where it can't be measured */
  static async of(browser: Browser): Promise<MemoryWatch | null> {
    const session = await browser.newBrowserCDPSession();
    const { processInfo } = await session.send('SystemInfo.getProcessInfo');
    await session.detach();
    const watch = new MemoryWatch(processInfo.map(({ id }) => id));
    return (await watch.look()) ? watch : null;
  }

  /** @returns null when a process is gone or nothing can be read */
  async look(): Promise<Sample | null> {
    const at = Date.now();
    try {
      const held = await Promise.all(this.#pids.map(proportionalMB));
      return { at, megabytes: held.reduce((sum, megabytes) => sum + megabytes, 0) };
    } catch {
      return null;
    }
  }

  start(): void {
    this.#running = this.#watch();
  }

  async stop(): Promise<void> {
    this.#isOver = true;
    await this.#running;
  }

  async #watch(): Promise<void> {
    while (!this.#isOver) {
      const sample = await this.look();
      if (sample) this.samples.push(sample);
      await new Promise((resolve) => setTimeout(resolve, EVERY));
    }
  }
}

async function proportionalMB(pid: number): Promise<number> {
  const text = await readFile(`/proc/${pid}/smaps_rollup`, 'utf8');
  return (Number(/^Pss:\s+(\d+) kB/m.exec(text)![1]) * 1024) / 1e6;
}
