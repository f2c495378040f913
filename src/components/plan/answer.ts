/** What follows from the form, worked out and written. Most of the page's script, so the form is there before it. */
import '../../browser/zod-setup.ts';
import { planFrom } from '../../core/water/plan/make-plan.ts';
import type { Plan, PlanIssue } from '../../core/water/plan/types.ts';
import { swimText } from '../../words/plan/sentences.ts';
import type { PoolKind } from '../../core/water/targets.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { whenIdle } from '../../browser/when-idle.ts';
import { worthTesting } from '../../core/water/plan/worth.ts';
import { worthText } from '../../words/plan/worth.ts';
import { h } from '../dom.ts';
import { keepSpans } from '../../browser/spans.ts';
import { spansFrom } from '../../core/reading/spans.ts';
import { issueSentence, showIssues } from './issues.ts';
import { completed, showDefaults, type TypedTargets } from './own-targets.ts';
import { keptPlan } from './kept-plan.ts';
import { planSheet } from './plan-sheet.ts';
import { welcome } from './welcome.ts';

const NOT_POSSIBLE = 'No plan is made from what can’t be. Please check what is marked.';

/** The raw input as far as this page looks into it; the selects of the pool always have a value. */
export interface PlanForm {
  readonly pool: PoolKind;
  readonly readings: Partial<Record<string, { value: number }>>;
  readonly targets?: TypedTargets;
}

export interface Answer {
  /** What the sheet says. */
  readonly sheet: readonly HTMLElement[];
  /** What of it is told to those who don't see the sheet change; '' for nothing. */
  readonly inShort: string;
}

/**
 * Marks in the form what can't be, and shows in its blank targets what counts.
 * @param atHand the form's own readings, where the plan starts from others
 */
export function answer(
  form: HTMLElement,
  typed: PlanForm,
  units: UnitSystem,
  volumeGiven: boolean,
  atHand: PlanForm['readings'] = typed.readings,
): Answer {
  const raw = withWholeTargets(typed);
  const outcome = planFrom(volumeGiven ? raw : withSomeVolume(raw));
  const unplaced = showIssues(form, outcome.ok ? [] : outcome.issues, units);
  if (!outcome.ok) return { sheet: [impossible(unplaced, units)], inShort: NOT_POSSIBLE };
  keptPlan.shown = volumeGiven ? outcome.plan : null;
  keptPlan.atHand = atHand;
  showDefaults(form, outcome.plan.targets);
  if (volumeGiven) keepSpans(spansFrom(outcome.plan.targets));
  const told = Object.keys(outcome.plan.input.readings).length > 0;
  if (!told) return { sheet: [welcome()], inShort: '' };
  const sheet = planSheet(outcome.plan, units, volumeGiven);
  if (volumeGiven) tellWorth(outcome.plan, sheet, units);
  return { sheet, inShort: inShort(outcome.plan, volumeGiven) };
}

/** Beside the steps, once the page is at rest: it takes the plan made over for every test there is. */
function tellWorth(plan: Plan, sheet: readonly HTMLElement[], units: UnitSystem): void {
  const steps = sheet.map((part) => part.querySelector('.steps')).find((found) => found);
  if (!steps) return;
  whenIdle(() => {
    const worth = steps.isConnected ? worthTesting(plan) : null;
    if (worth) steps.after(h('p', { class: 'worth hint' }, worthText(worth, units)));
  });
}

/** Steps are counted only where the sheet shows them. */
function inShort({ verdict, steps: { length } }: Plan, volumeGiven: boolean): string {
  const verdictShort = `The plan: ${swimText(verdict.swim)}`;
  if (!volumeGiven) return verdictShort;
  return `${verdictShort} ${length === 0 ? 'No steps.' : length === 1 ? 'One step.' : `${length} steps.`}`;
}

function withWholeTargets(raw: PlanForm): PlanForm {
  if (!raw.targets) return raw;
  const cyanuricAcid = raw.readings['cyanuric-acid']?.value;
  return { ...raw, targets: completed(raw.targets, raw.pool, cyanuricAcid) };
}

/** Without a volume nothing can be dosed, but the readings can be judged: that doesn't depend on it. */
function withSomeVolume(raw: PlanForm): PlanForm {
  const pool = { ...raw.pool, volumeLitres: 10_000 };
  return { ...raw, pool };
}

function impossible(issues: readonly PlanIssue[], units: UnitSystem): HTMLElement {
  const lines = issues.map((issue) => h('li', {}, issueSentence(issue, units)));
  return h(
    'section',
    {},
    h('h2', {}, 'Something can’t be right'),
    h('p', {}, NOT_POSSIBLE),
    lines.length > 0 ? h('ul', {}, ...lines) : null,
  );
}
