/** The form for a pool of the logbook: a new one, or changes to one there is. */
import { newId } from '../../browser/store/ids.ts';
import { NOTHING_KNOWN, withVolume } from '../../core/log/pool-record.ts';
import { chlorineMadePerDay } from '../../core/log/pool-supply.ts';
import { type Pool, poolSchema } from '../../core/log/schema.ts';
import { cleanText } from '../../core/text.ts';
import { fieldNumber } from '../../core/typed/number.ts';
import { PLAUSIBLE } from '../../core/typed/plausible.ts';
import { ANSWER_FIRST } from '../../words/typed.ts';
import { formatValue } from '../../words/numbers.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import { isAsking, typedNumber } from '../typed.ts';
import { fromLitres, toLitres, volumeUnit } from '../keep/measures.ts';

const POOL_ELSEWHERE = 'Lining, chlorinator, pump, sun, cover and the water from the tap are told on the';

interface PoolFormActions {
  readonly onKeep: (pool: Pool) => void;
  readonly onLeave: () => void;
  /** Absent for a pool that isn't there yet. */
  readonly onDelete?: () => void;
}

export function poolForm(pool: Pool | null, actions: PoolFormActions): HTMLFormElement {
  const name = h('input', {
    id: 'pool-name',
    maxlength: 120,
    required: true,
    value: pool?.name ?? '',
    autocomplete: 'off',
  });
  const litres = pool?.volumeLitres ?? null;
  const volume = h('input', { id: 'pool-volume', inputmode: 'decimal', autocomplete: 'off' });
  volume.value = litres === null ? '' : fieldNumber(fromLitres(litres));
  const shown = volume.value;
  const cell = h('input', { id: 'pool-cell', inputmode: 'decimal', autocomplete: 'off' });
  const grams = pool?.chlorinatorGramsPerDay ?? null;
  cell.value = grams === null ? '' : fieldNumber(grams);
  /** Told on the plan's page, and worked out from there. */
  const byCell = pool && 'pool.cell.gramsPerHour' in pool.details ? chlorineMadePerDay(pool) : null;
  const said = h('p', { role: 'status' });
  const leave = h('button', { type: 'button' }, 'Cancel');
  leave.addEventListener('click', actions.onLeave);
  const remove = h('button', { type: 'button', class: 'plain' }, 'Delete this pool and its entries');
  if (actions.onDelete) remove.addEventListener('click', actions.onDelete);
  const form = h(
    'form',
    { novalidate: true },
    h('p', {}, h('label', { for: 'pool-name' }, 'Name'), name),
    h('p', {}, h('label', { for: 'pool-volume' }, `Volume, ${volumeUnit()}`), volume),
    byCell === null
      ? h(
          'p',
          {},
          h('label', { for: 'pool-cell' }, 'Its chlorinator makes, g of chlorine a day'),
          cell,
          h('span', { class: 'hint' }, 'Output in g/h times the hours it runs, at its setting. Blank without one.'),
        )
      : h('p', { class: 'hint' }, `Its chlorinator makes ${formatValue(byCell)} g of chlorine a day, as it is set.`),
    h('p', { class: 'hint' }, POOL_ELSEWHERE, ' ', h('a', { href: href('plan/') }, 'plan’s page'), '.'),
    h('p', { class: 'buttons' }, h('button', { type: 'submit', class: 'primary' }, 'Keep it'), ' ', leave),
    actions.onDelete ? h('p', {}, remove) : null,
    said,
  );
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    const before = pool ?? { id: newId(), name: '', revision: 1, edited: new Date().toISOString(), ...NOTHING_KNOWN };
    const parsed = poolSchema.safeParse({
      // A volume that wasn't touched keeps its unrounded litres.
      ...(volume.value === shown ? before : withVolume(before, volumeOf(volume))),
      name: cleanText(name.value, 120).trim(),
      ...(byCell === null && { chlorinatorGramsPerDay: typedNumber(cell, PLAUSIBLE.gramsPerDay) }),
    });
    if (parsed.success) actions.onKeep(parsed.data);
    else said.textContent = isAsking(form) ? ANSWER_FIRST : wrongText(parsed.error.issues[0]?.path[0]);
  });
  return form;
}

function volumeOf(field: HTMLInputElement): number | null {
  const { min, max } = PLAUSIBLE.volume;
  const typed = typedNumber(field, { min: fromLitres(min), max: fromLitres(max) });
  return typed === null ? null : toLitres(typed);
}

function wrongText(field: PropertyKey | undefined): string {
  if (field === 'name') return 'Please give the pool a name.';
  return field === 'volumeLitres'
    ? 'The volume must be a number above 0, or blank.'
    : 'What the chlorinator makes must be a number, or blank.';
}
