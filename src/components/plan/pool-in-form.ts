/** The pool's part of the plan's form, which is the pool's own record in the logbook. */
import { keptForm } from '../../browser/plan-form.ts';
import { PLAN_FORM_KEY } from '../../browser/remembered.ts';
import { isSamePool } from '../../core/log/pool-record.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { need } from '../dom.ts';
import { fieldsIn } from './kept.ts';

/** What was typed of the pool goes on into its record, once it is all there. */
export async function writePool(): Promise<void> {
  if (!keptForm()?.pool?.isChanged) return;
  const { openLogbook } = await import('../../browser/store/logbook.ts');
  await (await openLogbook()).pool();
}

export function isAsKept(form: HTMLElement, units: UnitSystem): boolean {
  const kept = keptForm();
  return kept === null || isSamePool({ ...kept.fields, ...fieldsIn(form, units) }, kept.fields);
}

/** Another tab has changed what this form is to show. */
export function onPoolElsewhere(listener: () => void): void {
  window.addEventListener('storage', ({ key }) => {
    if (key?.endsWith(PLAN_FORM_KEY)) listener();
  });
}

/** Another volume has neither the surface nor the doubt of the one before. */
export function forgetShape(form: HTMLElement): void {
  for (const at of ['pool.surfaceM2', 'pool.volumeLowLitres', 'pool.volumeHighLitres']) {
    need<HTMLInputElement>(form, `[data-at="${at}"]`).value = '';
  }
}
