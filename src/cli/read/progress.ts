/** How far it has come, on a line that is written over; nothing where nobody looks. */
import { progressText } from '../../words/many.ts';

/** What the line needs of standard error. */
export interface Terminal {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
}

const ERASE_LINE = '\r\u001b[2K';

export class Progress {
  readonly #terminal: Terminal;
  readonly #total: number;
  readonly #started = performance.now();
  #refused = 0;

  constructor(terminal: Terminal, total: number) {
    [this.#terminal, this.#total] = [terminal, total];
  }

  tell(done: number, outcome: 'read' | 'refused'): void {
    if (outcome === 'refused') this.#refused += 1;
    if (!this.#isShown || done === this.#total) return;
    const secondsLeft = ((performance.now() - this.#started) / 1000 / done) * (this.#total - done);
    const text = progressText(done, this.#total, this.#refused, secondsLeft);
    // A line that wraps couldn't be written over; a terminal may say that it has no columns.
    this.#terminal.write(text.slice(0, (this.#terminal.columns || 80) - 1));
  }

  /** Before anything else is written: both streams may be the same terminal. */
  clear(): void {
    if (this.#isShown) this.#terminal.write(ERASE_LINE);
  }

  get #isShown(): boolean {
    return this.#terminal.isTTY === true && this.#total > 1;
  }
}
