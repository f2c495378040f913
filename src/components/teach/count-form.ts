/** Asks how many blocks a row has that was drawn over the photo. */
import { need } from '../dom.ts';

export class CountForm {
  readonly #form: HTMLFormElement;
  readonly #input: HTMLInputElement;
  #answer: ((count: number | null | undefined) => void) | null = null;

  constructor(form: HTMLFormElement) {
    this.#form = form;
    this.#input = need(form, 'input');
    form.addEventListener('submit', (event) => {
      event.preventDefault();
      this.#close(this.#input.valueAsNumber);
    });
    need(form, '[data-do=no-row]').addEventListener('click', () => this.#close(null));
    form.addEventListener('keydown', (event) => {
      if (event.key === 'Escape') this.#close(null);
    });
  }

  /** Null when the row is given up; undefined when it is asked again before there was an answer. */
  ask(usual: number): Promise<number | null | undefined> {
    this.#answer?.(undefined);
    this.#form.hidden = false;
    this.#input.value = String(usual);
    this.#input.focus();
    this.#input.select();
    return new Promise((resolve) => (this.#answer = resolve));
  }

  #close(count: number | null): void {
    this.#form.hidden = true;
    this.#answer?.(count);
    this.#answer = null;
  }
}
