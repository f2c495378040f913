/** A pool's record and what the plan's form was told of it: typed there, written here, and shown there again. */
import { fieldsOf, isSamePool, withFields, type Fields } from '../../core/log/pool-record.ts';
import type { Pool } from '../../core/log/schema.ts';
import { keepForm, keptForm, NO_FORM } from '../plan-form.ts';
import { changePool } from './changes.ts';
import type { Change } from './tables.ts';

/**
 * The pool with what the form was told meanwhile, which is written; the form has what is known of the pool from now on.
 * @param pool null before there is one
 * @param isOnly whether there is no other pool
 */
export async function withTyped(
  pool: Pool | null,
  first: () => Pool,
  isOnly: boolean,
  write: (change: Change) => Promise<void>,
): Promise<Pool> {
  const form = keptForm() ?? NO_FORM;
  if (!pool) return withForm(first(), form.fields, true);
  const isTyped = form.pool?.id === pool.id && form.pool.isChanged;
  // Before data version 7 only the form knew more than the volume.
  const isOlder = form.pool === null && Object.keys(pool.details).length === 0;
  if (!isTyped && !isOlder) return inForm(pool);
  const told = isTyped ? withFields(pool, form.fields) : withForm(pool, form.fields, isOnly);
  if (isSamePool(fieldsOf(told, {}), fieldsOf(pool, {}))) return inForm(pool);
  const { change, pool: after } = changePool(told, new Date().toISOString());
  try {
    // Noted first: whoever is told of the change asks again.
    inForm(after);
    await write(change);
    return after;
  } catch {
    // Another tab has written in this moment, or nothing can be: it is tried again, with what was typed meanwhile.
    const now = keptForm();
    if (now?.pool) keepForm({ ...now, pool: { ...now.pool, isChanged: true } });
    return told;
  }
}

/** No pool is kept any more: what the form says is its own. */
export function forgetPool(): void {
  const form = keptForm();
  if (form) keepForm({ ...form, pool: null });
}

/** @param isOnly pool there is: what the form says of the volume is said of it, whatever it said before */
function withForm(pool: Pool, fields: Fields, isOnly: boolean): Pool {
  const told = withFields(pool, fields);
  const { volumeLitres } = pool;
  return { ...told, volumeLitres: isOnly ? (told.volumeLitres ?? volumeLitres) : (volumeLitres ?? told.volumeLitres) };
}

/** The form shows this pool, as it is now. */
function inForm(pool: Pool): Pool {
  const form = keptForm() ?? NO_FORM;
  const { id, revision } = pool;
  if (form.pool?.id !== id || form.pool.revision !== revision || form.pool.isChanged) {
    keepForm({ ...form, fields: fieldsOf(pool, form.fields), pool: { id, revision, isChanged: false } });
  }
  return pool;
}
