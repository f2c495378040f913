/** The plan page's element: reads the form as it is typed and shows what follows. */
import '../../browser/zod-setup.ts';
import { type Handover, takeHandover } from '../../browser/handover.ts';
import type { InputIssue } from '../../core/pool/schema.ts';
import { planFrom } from '../../core/water/plan/make-plan.ts';
import type { PoolKind } from '../../core/water/targets.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { h, need } from '../dom.ts';
import { formatInterval, formatMeasured } from '../format.ts';
import { collect, fieldsOf, fill, switchUnits } from './form.ts';
import { sentence, showIssues } from './issues.ts';
import { keep, restore } from './kept.ts';
import { ShapeVolume } from './shape.ts';
import { completed, showDefaults, type TypedTargets } from './own-targets.ts';
import { keepSpans, spansFrom } from '../read/targets.ts';
import { planSheet } from './plan-sheet.ts';

type HandedReading = Handover['readings'][number];

class PlanDesk extends HTMLElement {
  #units: UnitSystem = 'metric';
  #handed = new Map<HTMLElement, HandedReading>();
  #shape!: ShapeVolume;

  connectedCallback(): void {
    const form = this.#form;
    form.addEventListener('submit', (event) => event.preventDefault());
    this.#units = restore(form);
    if (this.#units === 'us') switchUnits(form, 'us', 'us');
    for (const radio of form.querySelectorAll<HTMLInputElement>('[name=units]')) {
      radio.checked = radio.value === this.#units;
    }
    this.#takeHandover();
    this.#shape = new ShapeVolume(need(form, '.shape'), (litres, surface) => this.#useVolume(litres, surface));
    this.#shape.show(this.#units);
    form.addEventListener('input', ({ target }) => this.#change(target as HTMLElement));
    // In a task of its own, so that the form answers first.
    setTimeout(() => {
      this.#show();
      this.dataset['ready'] = '';
    });
  }

  get #form(): HTMLFormElement {
    return need(this, 'form');
  }

  #takeHandover(): void {
    const handover = takeHandover();
    if (!handover) return;
    for (const reading of handover.readings) {
      const field = fieldsOf(this.#form).find((at) => at.dataset['at'] === `readings.${reading.parameter}.value`);
      if (!field) continue;
      fill(field, reading.value, this.#units, formatMeasured(reading.value, reading.unit));
      this.#handed.set(field, reading);
      this.#about(reading.parameter, aboutHanded(reading));
    }
    const when = new Date(handover.time).toLocaleString('en-GB', { dateStyle: 'medium', timeStyle: 'short' });
    const note = need<HTMLElement>(this, '.handover-note');
    note.textContent = `Filled in from the strip read on ${when}. Change what you know better.`;
    note.hidden = false;
  }

  #useVolume(litres: number, surface: number): void {
    fill(this.#field('pool.volumeLitres'), litres, this.#units);
    fill(this.#field('pool.surfaceM2'), surface, this.#units);
    keep(this.#form, this.#units);
    this.#show();
  }

  #field(at: string): HTMLInputElement {
    return need(this.#form, `[data-at="${at}"]`);
  }

  #change(target: HTMLElement): void {
    // A volume that is typed over no longer belongs to the shape's surface.
    if (target.id === 'volume') this.#field('pool.surfaceM2').value = '';
    if (target instanceof HTMLInputElement && target.name === 'units') {
      const units = target.value as UnitSystem;
      switchUnits(this.#form, this.#units, units);
      this.#units = units;
      this.#shape.show(units);
    }
    // What is typed is exact: the unrounded number that was filled in goes.
    delete target.dataset['metric'];
    const handed = this.#handed.get(target);
    if (handed) {
      this.#handed.delete(target);
      this.#about(handed.parameter, 'entered by hand');
    }
    keep(this.#form, this.#units);
    this.#show();
  }

  #about(parameter: string, text: string): void {
    need(this, `[data-about="${parameter}"]`).textContent = text;
  }

  #show(): void {
    const raw = this.#input();
    const volumeGiven = need<HTMLInputElement>(this, '#volume').value.trim() !== '';
    const outcome = planFrom(volumeGiven ? raw : withSomeVolume(raw));
    const unplaced = showIssues(this.#form, outcome.ok ? [] : outcome.issues);
    const sheet = need(this, '.plan-sheet');
    if (outcome.ok) {
      showDefaults(this.#form, outcome.plan.targets);
      if (volumeGiven) keepSpans(spansFrom(outcome.plan.targets));
      const told = Object.keys(outcome.plan.input.readings).length > 0;
      sheet.replaceChildren(...(told ? planSheet(outcome.plan, this.#units, volumeGiven) : [welcome()]));
    } else {
      sheet.replaceChildren(impossible(unplaced));
    }
  }

  /** What the form says, with the spans of the values that still are the photo's. */
  #input(): PlanForm {
    const raw = { readings: {}, ...collect(this.#form, this.#units) } as unknown as PlanForm;
    for (const { parameter, low, high, offScale } of this.#handed.values()) {
      Object.assign(raw.readings[parameter] ?? {}, { low, high, offScale });
    }
    if (!raw.targets) return raw;
    const cyanuricAcid = raw.readings['cyanuric-acid']?.value;
    return { ...raw, targets: completed(raw.targets, raw.pool, cyanuricAcid) };
  }
}

/** The raw input as far as this page looks into it; the selects of the pool always have a value. */
interface PlanForm {
  readonly pool: PoolKind;
  readonly readings: Partial<Record<string, { value: number }>>;
  readonly targets?: TypedTargets;
}

/** Without a volume nothing can be dosed, but the readings can be judged: that doesn't depend on it. */
function withSomeVolume(raw: PlanForm): PlanForm {
  const pool = { ...raw.pool, volumeLitres: 10_000 };
  return { ...raw, pool };
}

function welcome(): HTMLElement {
  return h('p', { class: 'lead' }, 'Enter what you measured, and what it means appears here.');
}

function impossible(issues: readonly InputIssue[]): HTMLElement {
  const lines = issues.map(({ message }) => h('li', {}, sentence(message)));
  return h(
    'section',
    { role: 'status' },
    h('h2', {}, 'Something can’t be right'),
    h('p', {}, 'No plan is made from what can’t be. Please check what is marked.'),
    lines.length > 0 ? h('ul', {}, ...lines) : null,
  );
}

function aboutHanded({ unit, low, high, offScale, origin }: HandedReading): string {
  if (origin === 'hand') return 'entered by hand on the reading sheet';
  if (offScale === 'above') return 'above the strip’s scale';
  if (offScale === 'below') return 'below the strip’s scale';
  return `from the photo, likely ${formatInterval(low, high, unit)}`;
}

customElements.define('plan-desk', PlanDesk);
