/** The scale as it would be: its name, its ribbons, what can be told apart on it, and the button that keeps it. */
import { keepScale, type KeptWhere } from '../../browser/scales.ts';
import { quantityTitle } from '../../words/quantities.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { h, need } from '../dom.ts';
import { concernList } from '../scale/concerns.ts';
import { padRibbon } from '../scale/pad-ribbon.ts';
import type { Build } from './build-scale.ts';

export class CheckStep {
  readonly #root: HTMLElement;
  readonly #onSaved: (scale: StripScale, where: KeptWhere) => void;
  #build: ((name: string, light: string) => Build) | null = null;

  constructor(root: HTMLElement, onSaved: (scale: StripScale, where: KeptWhere) => void) {
    this.#root = root;
    this.#onSaved = onSaved;
    need(root, 'form').addEventListener('submit', (event) => {
      event.preventDefault();
      void this.#save();
    });
  }

  /** @param build makes the scale from a name and a word for the light */
  show(build: (name: string, light: string) => Build, name: string | null): void {
    this.#build = build;
    this.#root.hidden = false;
    if (name !== null) {
      this.#name.value = name;
      this.#name.readOnly = true;
    }
    this.#preview();
    need<HTMLElement>(this.#root, 'h2').focus();
  }

  get #name(): HTMLInputElement {
    return need(this.#root, '#scale-name');
  }

  get #light(): HTMLInputElement {
    return need(this.#root, '#scale-light');
  }

  #preview(): void {
    const place = need(this.#root, '.preview-scale');
    const built = this.#build!(this.#name.value.trim() || 'My strip', this.#light.value.trim());
    if (!built.ok) {
      place.replaceChildren(...built.issues.map((issue) => h('p', { class: 'wrong' }, issue)));
      return;
    }
    const { scale, concerns } = built;
    place.replaceChildren(
      concernList(concerns),
      h(
        'ul',
        { class: 'scale-pads' },
        ...scale.pads.map((pad) => h('li', {}, h('h3', {}, quantityTitle(pad.parameter)), padRibbon(pad))),
      ),
    );
  }

  async #save(): Promise<void> {
    const said = need(this.#root, '.check-said');
    const built = this.#build?.(this.#name.value.trim(), this.#light.value.trim());
    if (!built) return;
    if (!built.ok) {
      said.textContent = built.issues.join(' ');
      return;
    }
    try {
      const where = await keepScale(built.scale);
      said.textContent = '';
      this.#onSaved(built.scale, where);
    } catch (error) {
      console.error(error);
      said.textContent = 'The scale could not be kept. There may be no room left on this device.';
    }
  }
}
