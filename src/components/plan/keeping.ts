/** Between the plan's page and the plan that is kept: reopening, leaving it for another form, and the clock of its waits. */
import { planHash } from '../../browser/open-plan.ts';
import { type Measurement, measurementSchema } from '../../core/measurement/measurement.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import { failureText } from '../../words/log.ts';
import { KEPT } from '../../words/kept-plan.ts';
import { h } from '../dom.ts';
import { fillForm } from './fill-form.ts';
import { restore } from './kept.ts';
import { keptPlan } from './kept-plan.ts';
import { rememberReading } from './reading-kept.ts';
import { tickWaits } from './step-progress.ts';

/** Waits are told in minutes. */
const TICK_MILLIS = 15_000;

export class Keeping {
  readonly #form: HTMLElement;
  readonly #onChange: () => void;
  /** The plan that was left because the form was changed. */
  #left: string | null = null;
  #note: string | null = null;

  /** @param onChange the plan is not as it was shown */
  constructor(root: HTMLElement, form: HTMLElement, onChange: () => void) {
    this.#form = form;
    this.#onChange = onChange;
    keptPlan.onChange(() => {
      const { entry } = keptPlan;
      if (entry && location.hash !== planHash(entry.id)) history.replaceState(history.state, '', planHash(entry.id));
      if (entry) this.#left = null;
      onChange();
    });
    let states = '';
    setInterval(() => {
      tickWaits(root);
      // A wait that is over makes the step the next one.
      const now =
        keptPlan
          .standing()
          ?.progress?.steps.map(({ state }) => state)
          .join() ?? '';
      if (
        states !== '' &&
        now !== '' &&
        now !== states &&
        !root.contains(document.activeElement?.closest('input') ?? null)
      )
        onChange();
      states = now;
    }, TICK_MILLIS);
  }

  get id(): string | null {
    return keptPlan.entry?.id ?? null;
  }

  /** What the sheet is to be made from; null for the form. */
  input(): Record<string, unknown> | null {
    return keptPlan.entry?.rounds.at(-1)?.input ?? null;
  }

  /** @returns what was measured, where the plan is there */
  async reopen(id: string, units: UnitSystem): Promise<Measurement[] | null> {
    const isThere = await keptPlan.reopen(id).catch(() => false);
    this.#left = null;
    this.#note = isThere ? null : KEPT.gone;
    const input = this.input();
    if (!isThere || !input) return null;
    fillForm(this.#form, input, units);
    const readings = Object.entries((input['readings'] ?? {}) as Record<string, object>).flatMap(
      ([quantity, reading]) => {
        const whole = measurementSchema.safeParse({ ...reading, quantity });
        return whole.success ? [whole.data] : [];
      },
    );
    rememberReading(readings[0]?.time ?? null);
    return readings;
  }

  /** The form was changed: what it says now is another plan. @param typed field */
  leave(typed: HTMLElement): void {
    const { entry } = keptPlan;
    if (!entry) return;
    // The kept plan may be of an older volume: the pool is what it is now.
    restore(this.#form, typed);
    this.#left = entry.id;
    keptPlan.leave();
    history.replaceState(history.state, '', location.pathname + location.search);
  }

  wayBack(): HTMLElement[] {
    if (this.#note !== null) return [h('p', { class: 'wrong', role: 'status' }, this.#note)];
    if (this.#left === null) return [];
    const left = this.#left;
    const take = h('button', { type: 'button' }, KEPT.takeForm);
    take.addEventListener('click', () => {
      take.disabled = true;
      keptPlan.takeForm(left).catch((error: unknown) => {
        this.#note = failureText(toStoreError(error).failure);
        this.#onChange();
      });
    });
    return [
      h('p', { class: 'wrong' }, `${KEPT.otherForm} `, h('a', { href: planHash(left) }, KEPT.back)),
      ...(keptPlan.shown ? [h('p', { class: 'no-print' }, take)] : []),
    ];
  }

  /** Whoever pressed a button of a step goes on at that step when the sheet is drawn anew. */
  holdFocus(place: HTMLElement): () => void {
    const step = document.activeElement?.closest<HTMLElement>('[data-step]')?.dataset['step'];
    if (step === undefined || !place.contains(document.activeElement)) return () => undefined;
    return () => {
      const row =
        place.querySelector<HTMLElement>(`[data-step="${CSS.escape(step)}"]`) ??
        place.querySelector<HTMLElement>('.step');
      const button = row?.querySelector<HTMLElement>('.step-mark button, .step-done button');
      button?.focus({ preventScroll: true });
    };
  }
}
