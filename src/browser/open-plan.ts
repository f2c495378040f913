/**
 * The plan that is under way, remembered beside the store for pages that should not have to open that: the home page.
 * The store is what counts; this only points to it.
 */
import { countDone } from '../core/log/plan-left.ts';
import type { PlanEntry } from '../core/log/schema.ts';
import { forget, remember, remembered } from './remembered.ts';

const KEY = 'open-plan';
/** As the store remembers what it held, beside itself. */
export const LOG_MARK_KEY = 'log-mark';

export interface OpenPlanMark {
  readonly id: string;
  /** Steps done. */
  readonly done: number;
  /** What comes next: a kind of step, or 'test'. */
  readonly kind: string;
  /** From when on, ISO 8601; null for at once. */
  readonly from: string | null;
}

export function openPlanMark(): OpenPlanMark | null {
  try {
    const mark = JSON.parse(remembered(KEY) ?? 'null') as Partial<OpenPlanMark> | null;
    if (typeof mark?.id !== 'string' || typeof mark.kind !== 'string' || typeof mark.done !== 'number') return null;
    return { id: mark.id, kind: mark.kind, done: mark.done, from: typeof mark.from === 'string' ? mark.from : null };
  } catch {
    return null;
  }
}

/** A plan was written. */
export function markPlan({ id, next, closed, rounds }: PlanEntry): void {
  if (!next || closed !== null) return unmarkPlan(id);
  remember(KEY, JSON.stringify({ id, done: countDone({ rounds }), ...next } satisfies OpenPlanMark));
}

/** Told to the page where the mark was put right. */
export const OPEN_PLAN_EVENT = 'open-plan-changed';

/** A plan is gone, or over. */
export function unmarkPlan(id: string): void {
  if (openPlanMark()?.id === id) forget(KEY);
}

export function forgetOpenPlan(): void {
  forget(KEY);
}

/** Where a kept plan stands on the plan's page. */
export const planHash = (id: string) => `#plan-${id}`;

export function planIdIn(hash: string): string | null {
  return /^#plan-([A-Za-z0-9-]{4,64})$/.exec(hash)?.[1] ?? null;
}

/** Whether anything was ever kept here: asked before the store is opened. */
export function hasLogbook(): boolean {
  return remembered(LOG_MARK_KEY) !== null;
}
