/** The plan page's element: reads the form as it is typed and shows what follows. */
import { isHandedOver } from '../../browser/handed-over.ts';
import { hasLogbook, planIdIn } from '../../browser/open-plan.ts';
import type { Measurement } from '../../core/measurement/measurement.ts';
import { unitOf } from '../../core/measurement/quantities.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { h, need, say } from '../dom.ts';
import { formatMeasured } from '../../words/numbers.ts';
import { momentText } from '../../words/dates.ts';
import { collect, fill, switchUnits } from './form.ts';
import type { PlanForm } from './answer.ts';
import { keep, restore } from './kept.ts';
import { aboutHanded } from './about-handed.ts';
import { forgetShape, isAsKept, onPoolElsewhere, writePool } from './pool-in-form.ts';
import { partLines } from './part-lines.ts';
import { readingTime, rememberReading } from './reading-kept.ts';
import { ShapeVolume } from './shape.ts';
import { welcome } from './welcome.ts';

type Chemistry = typeof import('./answer.ts');
type Keeping = typeof import('./keeping.ts');

/** Any of these says that the form is about to be used. */
const FIRST_USES = ['pointerdown', 'focusin', 'input'] as const;

/** Announcements wait for a pause in typing: one at every key would cut off the one before. */
const TYPING_RESTS_MILLIS = 1000;
const NOT_LOADED = 'What works out the plan could not be loaded. Change a value to try again, or load the page again.';

class PlanDesk extends HTMLElement {
  #units: UnitSystem = 'metric';
  #handed = new Map<HTMLElement, Measurement>();
  #shape!: ShapeVolume;
  #chemistry: Chemistry | null = null;
  #isComing = false;
  #announcing: ReturnType<typeof setTimeout> | undefined;
  #allReadings: InstanceType<typeof import('./all-readings.ts').AllReadings> | null = null;
  /** Puts what the logbook has learnt into the form; null until it is asked for. */
  #putLearnt: (() => void) | null = null;
  /** Once a plan is shown: whether it is kept, and how far it is. */
  #keeping: InstanceType<Keeping['Keeping']> | null = null;

  connectedCallback(): void {
    const form = this.#form;
    form.addEventListener('submit', (event) => event.preventDefault());
    this.#units = restore(form);
    if (this.#units === 'us') switchUnits(form, 'us', 'us');
    for (const radio of form.querySelectorAll<HTMLInputElement>('[name=units]')) {
      radio.checked = radio.value === this.#units;
    }
    this.#shape = new ShapeVolume(need(form, '.shape'), (litres, surface) => this.#useVolume(litres, surface));
    this.#shape.show(this.#units);
    onPoolElsewhere(() => this.#fillAgain());
    form.addEventListener('change', () => void writePool().catch((error: unknown) => console.error(error)));
    form.addEventListener('input', ({ target }) => this.#change(target as HTMLElement));
    for (const button of form.querySelectorAll('.to-plan')) button.addEventListener('click', () => this.#toPlan());
    void this.#begin();
  }

  /** With nothing told there is nothing to work out until the form is used, and the page stays light until then. */
  async #begin(): Promise<void> {
    const kept = planIdIn(location.hash);
    addEventListener('hashchange', () => void this.#reopen(planIdIn(location.hash)));
    if (kept) await this.#reopen(kept);
    else if (isHandedOver()) await this.#takeHandover();
    this.#showMethods();
    this.#foldTold();
    if (this.#isTold()) await this.#fetchChemistry();
    else {
      need(this, '.plan-sheet').replaceChildren(...(this.#keeping?.wayBack() ?? []), welcome());
      for (const use of FIRST_USES) this.addEventListener(use, () => void this.#fetchChemistry(), { once: true });
    }
    this.dataset['ready'] = '';
  }

  /** What came along folds away; what is still to be told stands open. Nothing folds by itself later, while somebody types. */
  #foldTold(): void {
    const isTold = this.#isTold();
    const hasVolume = need<HTMLInputElement>(this.#form, '#volume').value.trim() !== '';
    need<HTMLDetailsElement>(this.#form, '[data-part=measured]').open = !isTold;
    need<HTMLDetailsElement>(this.#form, '[data-part=unseen]').open = !isTold;
    need<HTMLDetailsElement>(this.#form, '[data-part=pool]').open = !hasVolume;
    need<HTMLDetailsElement>(this.#form, '[data-part=more]').open = !hasVolume;
    this.#showLines();
  }

  #showLines(): void {
    for (const [part, line] of partLines(this.#form, this.#input(), this.#units)) {
      need(this.#form, `[data-part=${part}] .part-line`).textContent = line;
    }
  }

  #toPlan(): void {
    for (const part of this.#form.querySelectorAll<HTMLDetailsElement>('.form-part')) part.open = false;
    need(this, '.plan-sheet').scrollIntoView();
  }

  async #fetchChemistry(): Promise<void> {
    if (this.#chemistry || this.#isComing) return;
    this.#isComing = true;
    this.#chemistry = await import('./answer.ts').catch(() => null);
    this.#isComing = false;
    if (this.#chemistry) {
      await this.#keep();
      this.#show();
    } else {
      need(this, '.plan-sheet').replaceChildren(h('p', {}, NOT_LOADED));
      this.#announce(NOT_LOADED);
    }
  }

  async #keep(): Promise<void> {
    if (this.#keeping) return;
    const { Keeping } = await import('./keeping.ts');
    this.#keeping ??= new Keeping(this, this.#form, () => this.#show());
  }

  /** The plan that is kept under this id, in the place of what the form held. */
  async #reopen(id: string | null): Promise<void> {
    if (id === null || id === this.#keeping?.id) return;
    await this.#keep();
    const readings = await this.#keeping!.reopen(id, this.#units);
    if (readings) {
      this.#handed = new Map(readings.map((one) => [this.#field(`readings.${one.quantity}.value`), one]));
      for (const measurement of readings) this.#about(measurement.quantity, aboutHanded(measurement));
    }
    this.#showMethods();
    if (this.#chemistry) this.#show();
    else if ('ready' in this.dataset) await this.#fetchChemistry();
  }

  get #form(): HTMLFormElement {
    return need(this, 'form');
  }

  async #takeHandover(): Promise<void> {
    const { takeHandover } = await import('../../browser/handover.ts');
    const handed = takeHandover();
    const first = handed[0];
    if (!first) return;
    for (const measurement of handed) {
      const { quantity, value } = measurement;
      const field = this.#field(`readings.${quantity}.value`);
      // Somebody quick may have typed already.
      if (field.value !== '') continue;
      fill(field, value, this.#units, formatMeasured(value, unitOf(quantity)));
      this.#handed.set(field, measurement);
      this.#about(quantity, aboutHanded(measurement));
    }
    rememberReading(first.time);
    const when = momentText(first.time);
    const note = need<HTMLElement>(this, '.handover-note');
    note.textContent = `Filled in from the strip read on ${when}. Change what you know better.`;
    note.hidden = false;
    const { keepUnkept } = await import('../keep/keep-unkept.ts');
    note.append(' ', keepUnkept(first.time) ?? '');
  }

  #useVolume(litres: number, surface: number): void {
    forgetShape(this.#form);
    fill(this.#field('pool.volumeLitres'), litres, this.#units);
    fill(this.#field('pool.surfaceM2'), surface, this.#units);
    keep(this.#form, this.#units);
    this.#showLines();
    this.#show();
  }

  #field(at: string): HTMLInputElement {
    return need(this.#form, `[data-at="${at}"]`);
  }

  #change(target: HTMLElement): void {
    if (target.id === 'volume') forgetShape(this.#form);
    if (target instanceof HTMLInputElement && target.name === 'units') {
      const units = target.value as UnitSystem;
      switchUnits(this.#form, this.#units, units);
      this.#units = units;
      this.#shape.show(units);
    } else this.#keeping?.leave(target);
    // What is typed is exact: the unrounded number that was filled in goes.
    delete target.dataset['metric'];
    const handed = this.#handed.get(target);
    if (handed) {
      this.#handed.delete(target);
      this.#about(handed.quantity, '');
    }
    this.#showMethods();
    keep(this.#form, this.#units);
    this.#showLines();
    this.#show();
  }

  /** The pool is known better now: by another tab, or by the logbook that has just been opened. */
  #fillAgain(): void {
    if (!this.#keeping?.input() && !isAsKept(this.#form, this.#units)) restore(this.#form);
    this.#showLines();
    if (this.#chemistry) this.#show();
  }

  #about(quantity: string, text: string): void {
    need(this, `[data-about="${quantity}"]`).textContent = text;
  }

  /** How it was measured is asked once of all that was typed, and of each value where they differ. */
  #showMethods(): void {
    const method = need<HTMLSelectElement>(this.#form, '#typed-method').value;
    for (const select of this.#form.querySelectorAll<HTMLSelectElement>('select.method')) {
      const field = this.#field(select.dataset['with']!);
      select.hidden = method !== 'each' || field.value.trim() === '' || this.#handed.has(field);
      if (method !== 'each') select.value = method;
    }
  }

  #isTold(): boolean {
    return !!this.#keeping?.id || Object.keys(this.#input().readings).length > 0;
  }

  #show(): void {
    if (!this.#chemistry) {
      void this.#fetchChemistry();
      return;
    }
    const volumeGiven = need<HTMLInputElement>(this, '#volume').value.trim() !== '';
    const kept = this.#keeping?.input() as PlanForm | null | undefined;
    if (!kept) this.#putLearnt?.();
    const typed = this.#input();
    const { sheet, inShort } = this.#chemistry.answer(
      this.#form,
      kept ?? this.#allReadings?.applied(typed) ?? typed,
      this.#units,
      volumeGiven || !!kept,
      typed.readings,
    );
    const place = need<HTMLElement>(this, '.plan-sheet');
    const restore = this.#keeping?.holdFocus(place);
    place.replaceChildren(...(this.#keeping?.wayBack() ?? []), ...sheet);
    restore?.();
    if (!kept && hasLogbook()) {
      this.#lookAtAll(typed);
      this.#askForLearnt();
    }
    this.#announce(inShort);
  }

  /** Beside the readings of now those of the logbook. */
  #lookAtAll({ readings }: PlanForm): void {
    const time = this.#handed.size > 0 ? readingTime() : null;
    const look = async () => {
      const { AllReadings } = await import('./all-readings.ts');
      this.#allReadings ??= new AllReadings(need(this, '.all-readings'), () => this.#show());
      await this.#allReadings.look(readings, time);
    };
    look().catch((error: unknown) => console.error(error));
  }

  /** How much chlorine the pool uses, by the logbook. */
  #askForLearnt(): void {
    if (this.#putLearnt) return;
    this.#putLearnt = () => undefined;
    const ask = async () => {
      const { offerLearnt } = await import('./learnt-offer.ts');
      this.#putLearnt = await offerLearnt(need(this.#form, '.learnt-use'));
      this.#fillAgain();
    };
    ask().catch((error: unknown) => console.error(error));
  }

  /** To those who don't see the sheet change, once the typing rests. */
  #announce(text: string): void {
    clearTimeout(this.#announcing);
    this.#announcing = setTimeout(() => {
      const said = need(this, '.plan-said');
      say(said, text);
    }, TYPING_RESTS_MILLIS);
  }

  /** What the form says, with the spans of the values that still are the photo's. */
  #input(): PlanForm {
    const raw = { readings: {}, ...collect(this.#form, this.#units) } as unknown as PlanForm;
    for (const measurement of this.#handed.values()) {
      Object.assign(raw.readings[measurement.quantity] ?? {}, measurement);
    }
    return raw;
  }
}

customElements.define('plan-desk', PlanDesk);
