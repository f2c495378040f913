/** What each part of the form says, for the line it folds into. */
import { poolLine, readingsLine, shelfLine } from '../../words/plan/form-lines.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import type { PlanForm } from './answer.ts';
import { STRIP_FIELDS, UNSEEN_FIELDS } from './fields.ts';

const ids = (fields: typeof STRIP_FIELDS) => fields.map(({ id }) => id);

export function partLines(form: HTMLElement, { readings, pool }: PlanForm, units: UnitSystem): [string, string][] {
  const look = form.querySelector<HTMLSelectElement>('#look-water')!.value;
  const unseen = readingsLine(ids(UNSEEN_FIELDS), readings, units);
  const shelf = form.querySelectorAll('[data-product]:checked').length;
  return [
    ['measured', readingsLine(ids(STRIP_FIELDS), readings, units)],
    ['unseen', look === '' ? unseen : `${unseen}, looks ${look}`],
    ['pool', poolLine(pool, units)],
    ['more', shelfLine(shelf)],
  ];
}
