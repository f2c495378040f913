/** Which strip it is: the list of practice scales and, once they are looked up, the visitor's own before them. */
import { remember, remembered } from '../../browser/remembered.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { h, need } from '../dom.ts';

const SCALE_KEY = 'scale';

export class ScaleChoice {
  readonly #desk: HTMLElement;
  readonly #select: HTMLSelectElement;
  readonly #onChosen: (scale: StripScale) => void;
  #scales: readonly StripScale[];
  #kept: Promise<void> | null = null;

  constructor(desk: HTMLElement, practice: readonly StripScale[], onChosen: (scale: StripScale) => void) {
    this.#desk = desk;
    this.#select = need(desk, 'select');
    this.#scales = practice;
    this.#onChosen = onChosen;
    this.#chooseRemembered();
    this.#select.addEventListener('change', () => {
      remember(SCALE_KEY, this.#select.value);
      onChosen(this.scale);
    });
  }

  get scale(): StripScale {
    return this.#scales.find(({ id }) => id === this.#select.value) ?? this.#scales[0]!;
  }

  get scales(): readonly StripScale[] {
    return this.#scales;
  }

  /** For one photo: what is chosen stays chosen. */
  byId(id: string): StripScale {
    return this.#scales.find((scale) => scale.id === id) ?? this.scale;
  }

  withKept(): Promise<void> {
    return (this.#kept ??= this.#addKept().catch((error: unknown) => {
      // Not fetched, as when the page is left early: tried again when a photo needs them.
      this.#kept = null;
      console.info('Kept scales not looked up:', error);
    }));
  }

  #chooseRemembered(): void {
    const id = remembered(SCALE_KEY);
    if (this.#scales.some((scale) => scale.id === id)) this.#select.value = id!;
    this.#onChosen(this.scale);
  }

  async #addKept(): Promise<void> {
    const { keptScales } = await import('../../browser/scales.ts');
    const { scales } = await keptScales();
    if (scales.length > 0) {
      const practice = [...this.#select.children];
      const options = scales.map(({ id, name }) => h('option', { value: id }, name));
      this.#select.replaceChildren(
        h('optgroup', { label: 'Your scales' }, ...options),
        h('optgroup', { label: 'Practice scales' }, ...practice),
      );
      this.#scales = [...scales, ...this.#scales];
      this.#chooseRemembered();
    }
    this.#desk.dataset['scales'] = String(this.#scales.length);
  }
}
