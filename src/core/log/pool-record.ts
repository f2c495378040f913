/** The one record of a pool, and how the plan's form has it. */
import type { Pool } from './schema.ts';

export const NOTHING_KNOWN = { volumeLitres: null, chlorinatorGramsPerDay: null, details: {} } as const;

const VOLUME = 'pool.volumeLitres';

/** By their place in the plan's input, metric; blanks and what belongs to no pool may be among them. */
export type Fields = Readonly<Record<string, unknown>>;

const isOfPool = (at: string) => at.startsWith('pool.') || at.startsWith('fill.');

export function isSamePool(a: Fields, b: Fields): boolean {
  const places = [...new Set([...Object.keys(a), ...Object.keys(b)])].filter(isOfPool);
  const told = (value: unknown) => (isTold(value) ? value : '');
  return places.every((at) => told(a[at]) === told(b[at]));
}

/** The pool as the form's fields tell it. */
export function withFields(pool: Pool, fields: Fields): Pool {
  const told = Object.entries(fields).filter(([at, value]) => isOfPool(at) && isTold(value));
  const { [VOLUME]: volume, ...details } = Object.fromEntries(told) as Pool['details'];
  return { ...pool, volumeLitres: typeof volume === 'number' ? volume : null, details };
}

/** The form's fields as the pool has them, with those of the form that belong to no pool. */
export function fieldsOf({ volumeLitres, details }: Pool, form: Fields): Fields {
  const rest = Object.entries(form).filter(([at]) => !isOfPool(at));
  return { ...Object.fromEntries(rest), ...details, ...(volumeLitres !== null && { [VOLUME]: volumeLitres }) };
}

function isTold(value: unknown): boolean {
  return typeof value === 'number' ? Number.isFinite(value) : typeof value === 'string' && value !== '';
}

/** Another volume: what was known of the old one goes. */
export function withVolume(
  { details, ...pool }: Pool,
  volumeLitres: number | null,
  span?: { readonly low: number; readonly high: number },
): Pool {
  const of = ['pool.volumeLowLitres', 'pool.volumeHighLitres'] as const;
  const rest = Object.entries(details).filter(([at]) => !of.some((end) => end === at));
  return {
    ...pool,
    volumeLitres,
    details: { ...Object.fromEntries(rest), ...(span && { [of[0]]: span.low, [of[1]]: span.high }) },
  };
}
