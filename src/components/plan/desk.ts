/** The plan page's element: reads the form as it is typed and shows what follows. */
import '../../browser/zod-setup.ts';
import { type Handover, takeHandover } from '../../browser/handover.ts';
import { parsePlanInput } from '../../core/pool/schema.ts';
import { targetsFor } from '../../core/water/targets.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { h, need } from '../dom.ts';
import { formatInterval, formatMeasured } from '../format.ts';
import { collect, fieldsOf, fill, switchUnits } from './form.ts';
import { showIssues } from './issues.ts';
import { keep, restore } from './kept.ts';
import { ShapeVolume } from './shape.ts';
import { rangeTable } from './range-table.ts';
import { waterView } from './water-view.ts';

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
    this.#show();
    this.dataset['ready'] = '';
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
    const raw = collect(this.#form, this.#units) as { readings?: Record<string, object> };
    for (const { parameter, low, high, offScale } of this.#handed.values()) {
      Object.assign(raw.readings![parameter]!, { low, high, offScale });
    }
    const parsed = parsePlanInput(raw);
    const issues = parsed.ok ? [] : parsed.issues.filter(({ where }) => !this.#blank(where));
    showIssues(this.#form, issues);
    if (issues.length > 0) return;
    need(this, '.plan-sheet').replaceChildren(...this.#sheet(raw));
  }

  /** A field that is still empty is asked for, not complained about. */
  #blank(where: string): boolean {
    return where === 'pool, volumeLitres' && need<HTMLInputElement>(this, '#volume').value.trim() === '';
  }

  #sheet(raw: object): HTMLElement[] {
    const withVolume = { ...raw, pool: { volumeLitres: 1000, ...(raw as { pool: object }).pool } };
    const parsed = parsePlanInput(withVolume);
    if (!parsed.ok) return [];
    const { readings, pool, targets: edited } = parsed.input;
    const aim = targetsFor(pool, 0, edited)['cyanuric-acid'].aim;
    const targets = targetsFor(pool, readings['cyanuric-acid']?.value ?? aim, edited);
    const table = rangeTable(readings, targets);
    if (!table) return [h('p', { class: 'lead' }, 'Enter what you measured, and what it means appears here.')];
    return [table, waterView(readings, targets['saturation-index'])];
  }
}

function aboutHanded({ unit, low, high, offScale, origin }: HandedReading): string {
  if (origin === 'hand') return 'entered by hand on the reading sheet';
  if (offScale === 'above') return 'above the strip’s scale';
  if (offScale === 'below') return 'below the strip’s scale';
  return `from the photo, likely ${formatInterval(low, high, unit)}`;
}

customElements.define('plan-desk', PlanDesk);
