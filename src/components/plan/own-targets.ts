/** Targets that the owner set: one end is enough, the rest stays as it was. */
import { numberText } from '../../words/numbers.ts';
import { TARGET_IDS, type Targets, type TargetSpan, targetsFor } from '../../core/water/targets.ts';
import type { PoolKind } from '../../core/water/targets.ts';

export type TypedTargets = Partial<Record<string, Partial<TargetSpan>>>;

/** @param cyanuricAcid as typed; undefined when blank */
export function completed(typed: TypedTargets, kind: PoolKind, cyanuricAcid: number | undefined): TypedTargets {
  const defaults = defaultTargets(kind, cyanuricAcid);
  const entries = TARGET_IDS.filter((id) => typed[id] !== undefined).map((id) => {
    const { low, aim, high } = { ...defaults[id], ...typed[id] };
    // An aim that was not typed moves with the ends that were.
    const moved = typed[id]!.aim === undefined ? Math.min(Math.max(aim, low), high) : aim;
    return [id, { low, aim: moved, high }] as const;
  });
  return Object.fromEntries(entries);
}

function defaultTargets(kind: PoolKind, cyanuricAcid: number | undefined): Targets {
  const aim = targetsFor(kind, 0)['cyanuric-acid'].aim;
  return targetsFor(kind, cyanuricAcid ?? aim);
}

/** Shows in every blank field what counts while it is blank. */
export function showDefaults(form: HTMLElement, targets: Targets): void {
  for (const field of form.querySelectorAll<HTMLInputElement>('[data-at^="targets."]')) {
    const [, id, end] = field.dataset['at']!.split('.') as [string, keyof Targets, 'low' | 'aim' | 'high'];
    field.placeholder = numberText(targets[id][end], { figures: 3 });
  }
}
