/** Where a reading stands, or why there is none: a reading that isn't kept yet is never lost by what comes after it. */
import { clear, lookAt } from '../dom.ts';

export class ResultPlace {
  readonly #root: HTMLElement;
  readonly #onShown: () => void;

  /** @param onShown something to look at has come */
  constructor(root: HTMLElement, onShown: () => void) {
    [this.#root, this.#onShown] = [root, onShown];
  }

  get isEmpty(): boolean {
    return this.#root.childElementCount === 0;
  }

  show(content: HTMLElement): void {
    this.#onShown();
    this.replace(content);
    lookAt(content);
  }

  /** Without asking for the visitor's eyes. */
  replace(content: HTMLElement): void {
    clear(this.#root);
    this.#root.append(content);
  }

  /** Nothing was read: the reading that isn't kept yet comes back below. */
  showRefusal(content: HTMLElement): void {
    this.#onShown();
    this.setAside();
    this.#root.prepend(content);
    this.comeBack();
    lookAt(content);
  }

  /** While another photo is read, a reading that isn't kept yet stays behind; all else goes. */
  setAside(): void {
    const sheet = this.#waitingSheet();
    if (sheet) sheet.hidden = true;
    clear(this.#root, sheet);
  }

  comeBack(): void {
    this.#waitingSheet()?.removeAttribute('hidden');
  }

  #waitingSheet(): HTMLElement | null {
    return this.#root.querySelector<HTMLElement>('.reading-sheet:has(.not-kept)');
  }
}
