/** The moving part of an instrument: reads its sliders, asks the instrument, shows picture and answer. */
import { need } from '../dom.ts';
import { toElement } from '../svg.ts';
import { formatSetting, onControl, type Instrument, type Settings } from './instrument.ts';
import { LOADERS } from './loaders.ts';

class InstrumentElement extends HTMLElement {
  #instrument: Promise<Instrument> | null = null;
  #asked = 0;

  connectedCallback(): void {
    this.addEventListener('input', () => void this.#show());
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
      const output = slider?.closest('label')?.querySelector('output');
      if (output) output.textContent = said;
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
    for (const control of controls) {
      const slider = this.#sliders.find(({ name }) => name === control.name);
      const value = moved[control.name];
      if (slider && value !== undefined) slider.value = String(onControl(value, control));
    }
    await this.#show();
  }
}

customElements.define('dip-instrument', InstrumentElement);
