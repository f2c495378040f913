/** Hints flicker as the hand trembles: one is shown and spoken only once it has lasted for a moment. */

const STANDS_MILLIS = { shown: 200, spoken: 700 } as const;
/** Between two sentences for a screen reader. */
const PAUSE_MILLIS = 2000;

export class Speaker {
  readonly #shown: HTMLElement;
  readonly #spoken: HTMLElement;
  #text = '';
  #since = 0;
  #spokenAt = -Infinity;

  /** @param spoken a live region */
  constructor(shown: HTMLElement, spoken: HTMLElement) {
    this.#shown = shown;
    this.#spoken = spoken;
  }

  /** @param millis by the same clock every time */
  say(text: string, millis: number): void {
    if (text !== this.#text) [this.#text, this.#since] = [text, millis];
    const stood = millis - this.#since;
    if (stood >= STANDS_MILLIS.shown || this.#shown.textContent === '') write(this.#shown, text);
    if (stood < STANDS_MILLIS.spoken || millis - this.#spokenAt < PAUSE_MILLIS) return;
    if (write(this.#spoken, text)) this.#spokenAt = millis;
  }

  /** Without waiting. */
  sayNow(text: string): void {
    this.#text = text;
    write(this.#shown, text);
    write(this.#spoken, text);
  }
}

function write(element: HTMLElement, text: string): boolean {
  if (element.textContent === text) return false;
  element.textContent = text;
  return true;
}
