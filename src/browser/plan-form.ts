/**
 * What is kept of the plan's form on this device: its targets and the shelf, and its pool as the logbook has it, so that
 * the form is filled at once. What was typed of the pool goes into the logbook as soon as that is open: `Logbook.pool`.
 */
import { isSamePool } from '../core/log/pool-record.ts';
import { PLAN_FORM_KEY, remember, remembered } from './remembered.ts';

export interface KeptForm {
  /** By their place in the plan's input; numbers are metric. */
  readonly fields: Readonly<Record<string, unknown>>;
  /** Strength as typed, '' for the usual one, by product; null for the shelf that the page comes with. */
  readonly shelf: Readonly<Record<string, unknown>> | null;
  /** What else was told of a product. */
  readonly bottles: Readonly<Record<string, Bottle>>;
  /** The pool of the logbook that the fields tell of; null before there was one. */
  readonly pool: KeptPool | null;
}

interface KeptPool {
  readonly id: string;
  readonly revision: number;
  /** Typed since then. */
  readonly isChanged: boolean;
}

export const NO_FORM: KeptForm = { fields: {}, shelf: null, bottles: {}, pool: null };

export interface Bottle {
  /** What the per cent of liquid chlorine count. */
  readonly basis?: string;
  /** The day it was made or bought, so that its age goes on. */
  readonly made?: string;
  /** Of a litre or a kilogram. */
  readonly price?: string;
}

export function keepForm(form: KeptForm): void {
  remember(PLAN_FORM_KEY, JSON.stringify(form));
}

/** What was typed; the pool's part of it waits for the logbook. */
export function keepTyped(form: Omit<KeptForm, 'pool'>): void {
  const before = keptForm() ?? NO_FORM;
  const isChanged = before.pool?.isChanged || !isSamePool(before.fields, form.fields);
  keepForm({ ...form, pool: before.pool && { ...before.pool, isChanged } });
}

/** Null where nothing, or nothing that this page wrote, is kept. */
export function keptForm(): KeptForm | null {
  try {
    const kept = JSON.parse(remembered(PLAN_FORM_KEY) ?? 'null') as Partial<KeptForm> | null;
    if (!kept?.fields || typeof kept.fields !== 'object' || typeof kept.shelf !== 'object') return null;
    return { fields: kept.fields, shelf: kept.shelf, bottles: soundBottles(kept.bottles), pool: soundPool(kept.pool) };
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

function soundPool(kept: unknown): KeptPool | null {
  const { id, revision, isChanged } = (kept ?? {}) as Partial<Record<keyof KeptPool, unknown>>;
  if (typeof id !== 'string' || typeof revision !== 'number') return null;
  return { id, revision, isChanged: isChanged === true };
}
