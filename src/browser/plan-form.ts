/** What is kept of the plan's form on this device: the pool, its targets and the shelf. */
import { remember, remembered } from './remembered.ts';

export const PLAN_FORM_KEY = 'plan-form';

export interface KeptForm {
  /** By their place in the plan's input; numbers are metric. */
  readonly fields: Readonly<Record<string, unknown>>;
  /** Strength as typed, '' for the usual one, by product; null for the shelf that the page comes with. */
  readonly shelf: Readonly<Record<string, unknown>> | null;
  /** What else was told of a product. */
  readonly bottles: Readonly<Record<string, Bottle>>;
}

export interface Bottle {
  /** What the per cent of liquid chlorine count. */
  readonly basis?: string;
  /** The day it was made or bought, so that its age goes on. */
  readonly made?: string;
  /** As typed, of a litre or a kilogram. */
  readonly price?: string;
}

export function keepForm(form: KeptForm): void {
  remember(PLAN_FORM_KEY, JSON.stringify(form));
}

/** Null where nothing, or nothing that this page wrote, is kept. */
export function keptForm(): KeptForm | null {
  try {
    const kept = JSON.parse(remembered(PLAN_FORM_KEY) ?? 'null') as Partial<KeptForm> | null;
    if (!kept?.fields || typeof kept.fields !== 'object' || typeof kept.shelf !== 'object') return null;
    return { fields: kept.fields, shelf: kept.shelf, bottles: soundBottles(kept.bottles) };
  } catch {
    return null;
  }
}

/** Whatever isn't text is passed over. */
function soundBottles(kept: unknown): Record<string, Bottle> {
  if (!kept || typeof kept !== 'object') return {};
  const texts = (bottle: unknown) =>
    Object.fromEntries(Object.entries(bottle ?? {}).filter(([, value]) => typeof value === 'string')) as Bottle;
  return Object.fromEntries(Object.entries(kept).map(([id, bottle]) => [id, texts(bottle)]));
}
