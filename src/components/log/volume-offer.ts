/** The volume that the additions tell of: shown with its doubt, taken over or refused by the visitor, never by itself. */
import { changePool } from '../../browser/store/changes.ts';
import { openLogbook } from '../../browser/store/logbook.ts';
import { remember, remembered } from '../../browser/remembered.ts';
import { settings } from '../../browser/settings.ts';
import { withVolume } from '../../core/log/pool-record.ts';
import type { Pool } from '../../core/log/schema.ts';
import type { Estimate } from '../../core/measurement/measurement.ts';
import { REFUSE_LEARNT, USE_LEARNT, volumeExperimentText, volumeLearntText } from '../../words/water-now.ts';
import { h } from '../dom.ts';

/** A refused volume is offered again once it has moved by more than this share. */
const MOVED = 0.05;

export function volumeOffer(litres: Estimate, pool: Pool): HTMLElement | null {
  const refused = Number(remembered(keyOf(pool)) ?? NaN);
  if (Math.abs(litres.value / refused - 1) < MOVED) return null;
  const line = h('p', { class: 'volume-offer' }, `${volumeLearntText(litres, pool.volumeLitres, settings.units())} `);
  // What stands there already is confirmed by it, and needs no button.
  if (pool.volumeLitres !== null && Math.abs(litres.value / pool.volumeLitres - 1) < MOVED) return line;
  const use = h('button', { type: 'button', class: 'plain' }, USE_LEARNT);
  use.addEventListener('click', () => void take(litres, pool));
  const refuse = h('button', { type: 'button', class: 'plain' }, REFUSE_LEARNT);
  refuse.addEventListener('click', () => {
    remember(keyOf(pool), String(litres.value));
    line.remove();
  });
  line.append(h('span', { class: 'no-print' }, use, ' ', refuse));
  return line;
}

const keyOf = ({ id }: Pool) => `refused-volume-${id}`;

/** With its doubt, which goes into the doses. */
async function take({ value, low, high }: Estimate, pool: Pool): Promise<void> {
  const logbook = await openLogbook();
  const span = { low: Math.round(low), high: Math.round(high) };
  await logbook.write(changePool(withVolume(pool, Math.round(value), span), new Date().toISOString()).change);
}

/** mg/L that tell a volume to within a few per cent by a meter. */
const RISE = 600;
/** Salt is sold in sacks. */
const STEP_KG = 5;

/** How the volume could be found out, where the water has room for the salt that it takes. */
export function volumeExperiment(salt: Estimate | null, highest: number | null, pool: Pool): HTMLElement | null {
  const { volumeLitres } = pool;
  if (!salt || highest === null || volumeLitres === null) return null;
  const kilograms = Math.ceil((RISE * volumeLitres) / 1e6 / STEP_KG) * STEP_KG;
  const rise = (kilograms * 1e6) / volumeLitres;
  // The pool may be smaller than is thought.
  if (salt.high + 1.15 * rise > highest) return null;
  return h('p', { class: 'hint' }, volumeExperimentText(kilograms, rise, settings.units()));
}
