/** What is wrong with the input, beside the field it is about. */
import type { PlanIssue } from '../../core/water/plan/types.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { capitalised } from '../../words/grammar.ts';
import { planIssueText } from '../../words/plan-input.ts';
import { h } from '../dom.ts';
import { fieldsOf } from './form.ts';
import { isAsking } from '../typed.ts';

/** @returns the issues that belong to no field of the form */
export function showIssues(form: HTMLElement, issues: readonly PlanIssue[], units: UnitSystem): PlanIssue[] {
  clearIssues(form);
  return issues.filter((issue) => {
    const field = fieldFor(form, issue.path);
    if (!field) return true;
    if (field.getAttribute('aria-invalid') === 'true' || isAsking(field.parentElement!)) return false;
    const id = `${field.id || field.dataset['strengthOf']!}-issue`;
    field.setAttribute('aria-invalid', 'true');
    field.setAttribute('aria-errormessage', id);
    field.parentElement!.append(h('span', { id, class: 'field-issue' }, issueSentence(issue, units)));
    return false;
  });
}

function clearIssues(form: HTMLElement): void {
  for (const note of form.querySelectorAll('.field-issue:not(.which-number)')) note.remove();
  for (const field of form.querySelectorAll('[aria-invalid]')) {
    field.removeAttribute('aria-invalid');
    field.removeAttribute('aria-errormessage');
  }
}

function fieldFor(form: HTMLElement, path: PlanIssue['path']): HTMLElement | undefined {
  if (path[0] === 'shelf') {
    const checked = [...form.querySelectorAll<HTMLInputElement>('[data-product]:checked')];
    const product = checked[Number(path[1])]?.dataset['product'];
    return form.querySelector<HTMLElement>(`[data-strength-of="${product ?? ''}"]`) ?? undefined;
  }
  const at = path.join('.');
  return fieldsOf(form).find((field) => [at, `${at}.value`].includes(field.dataset['at']!));
}

export function issueSentence(issue: PlanIssue, units: UnitSystem): string {
  const text = capitalised(planIssueText(issue, units));
  return text.endsWith('.') || text.endsWith('?') ? text : `${text}.`;
}
