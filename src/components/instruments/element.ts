/** The moving part of an instrument: reads its sliders, asks the instrument, shows picture and answer. */
import { quantityTitle } from '../../words/quantities.ts';
import { need } from '../dom.ts';
import { toElement } from '../svg.ts';
import { formatSetting, onControl, type Control, type Instrument, type Settings } from './instrument.ts';
import { LOADERS } from './loaders.ts';

class InstrumentElement extends HTMLElement {
  #instrument: Promise<Instrument> | null = null;
  #asked = 0;

  connectedCallback(): void {
    this.addEventListener('input', () => void this.#show());
    this.querySelector('.mine button')?.addEventListener('click', () => void this.#putMine());
    const picture = need<HTMLElement>(this, '.picture');
    if (picture.dataset['drag'] === undefined) return;
    picture.addEventListener('pointerdown', (event) => {
      picture.setPointerCapture(event.pointerId);
      void this.#drag(event);
    });
    picture.addEventListener('pointermove', (event) => {
      if (picture.hasPointerCapture(event.pointerId)) void this.#drag(event);
    });
  }

  #load(): Promise<Instrument> {
    const load = LOADERS[this.dataset['instrument'] ?? ''];
    if (!load) throw new Error(`there is no instrument '${this.dataset['instrument']}'`);
    this.#instrument ??= load();
    return this.#instrument;
  }

  get #sliders(): HTMLInputElement[] {
    return [...this.querySelectorAll<HTMLInputElement>('input[type=range]')];
  }

  #settings(): Settings {
    return Object.fromEntries(this.#sliders.map((slider) => [slider.name, slider.valueAsNumber]));
  }

  async #show(): Promise<void> {
    const turn = ++this.#asked;
    const instrument = await this.#load();
    // While the working was loading, a later move may have asked again.
    if (turn !== this.#asked) return;
    const settings = this.#settings();
    const { picture, answer } = instrument.show(settings);
    need(this, '.picture svg').replaceWith(toElement(picture));
    need(this, '.answer').textContent = answer;
    for (const control of instrument.controls) {
      const slider = this.#sliders.find(({ name }) => name === control.name);
      const said = formatSetting(settings[control.name]!, control);
      slider?.setAttribute('aria-valuetext', said);
      const shown = slider?.closest('label')?.querySelector('b');
      if (shown) shown.textContent = said;
    }
  }

  async #drag(event: PointerEvent): Promise<void> {
    const { drag, controls } = await this.#load();
    const box = need(this, '.picture svg').getBoundingClientRect();
    if (!drag || box.width === 0) return;
    const moved = drag.to(
      (event.clientX - box.left) / box.width,
      (event.clientY - box.top) / box.height,
      this.#settings(),
    );
    this.#move(controls, moved);
    await this.#show();
  }

  #move(controls: readonly Control[], settings: Settings): void {
    for (const control of controls) {
      const slider = this.#sliders.find(({ name }) => name === control.name);
      const value = settings[control.name];
      if (slider && value !== undefined) slider.value = String(onControl(value, control));
    }
  }

  async #putMine(): Promise<void> {
    const [{ mine = {}, controls }, { takeHandover }] = await Promise.all([
      this.#load(),
      import('../../browser/handover.ts'),
    ]);
    const measured = takeHandover().filter(({ quantity }) => mine[quantity] !== undefined);
    this.#move(controls, Object.fromEntries(measured.map(({ quantity, value }) => [mine[quantity]!, value])));
    need(this, '.mine [role=status]').textContent =
      measured.length === 0
        ? 'No reading has been taken in this tab yet.'
        : `Taken over: ${measured.map(({ quantity }) => quantityTitle(quantity)).join(', ')}. The rest is as it was.`;
    await this.#show();
  }
}

customElements.define('dip-instrument', InstrumentElement);
