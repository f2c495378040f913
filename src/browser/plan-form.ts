/** What is kept of the plan's form on this device: the pool, its targets and the shelf. */
import { remember, remembered } from './remembered.ts';

export const PLAN_FORM_KEY = 'plan-form';

export interface KeptForm {
  /** By their place in the plan's input; numbers are metric. */
  readonly fields: Readonly<Record<string, unknown>>;
  /** Strength as typed, '' for the usual one, by product; null for the shelf that the page comes with. */
  readonly shelf: Readonly<Record<string, unknown>> | null;
}

export function keepForm(form: KeptForm): void {
  remember(PLAN_FORM_KEY, JSON.stringify(form));
}

/** Null where nothing, or nothing that this page wrote, is kept. */
export function keptForm(): KeptForm | null {
  try {
    const kept = JSON.parse(remembered(PLAN_FORM_KEY) ?? 'null') as Partial<KeptForm> | null;
    if (!kept?.fields || typeof kept.fields !== 'object' || typeof kept.shelf !== 'object') return null;
    return { fields: kept.fields, shelf: kept.shelf };
  } catch {
    return null;
  }
}
