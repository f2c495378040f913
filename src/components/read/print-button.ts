/** Where another print was read: lets the owner's scale know it by this strip, once two of its values are known. */
import { keepScale, keptScales } from '../../browser/scales.ts';
import type { Entry } from '../../core/reading/entry.ts';
import type { PadQuantity } from '../../core/measurement/quantities.ts';
import { LEARN, LEARN_PRINT } from '../../words/learnt.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';
import type { SheetData } from './sheet.ts';

/** Null where the print is known, or the colours of the photo are gone with the page it was read on. */
export function printButton(
  entries: () => readonly Entry[],
  { outcome, scale, seen }: Pick<SheetData, 'outcome' | 'scale' | 'seen'>,
): HTMLElement | null {
  if (!seen || scale.teachings.length === 0 || !outcome.warnings.includes('another-print')) return null;
  const said = h('span', { role: 'status', class: 'hint' });
  const button = h('button', { type: 'button' }, LEARN_PRINT.button);
  const learn = async (): Promise<string> => {
    const [{ withPrintOf }, { scales }] = await Promise.all([import('./learning.ts'), keptScales()]);
    const kept = scales.find(({ id }) => id === scale.id);
    if (!kept) return LEARN.gone;
    const byHand = entries().flatMap((entry): [PadQuantity, number][] =>
      entry.byHand ? [[entry.pad.quantity, entry.byHand.value]] : [],
    );
    const light = LEARN_PRINT.light;
    const carried = withPrintOf(kept, { light, ...seen, values: Object.fromEntries(byHand) });
    if (carried.reason) return LEARN_PRINT[carried.reason];
    await keepScale(carried.scale);
    button.hidden = true;
    return LEARN_PRINT.learnt;
  };
  button.addEventListener('click', () => {
    learn().then(
      (text) => said.replaceChildren(text, ' ', h('a', { href: href('scales/') }, LEARN.shelf)),
      (error: unknown) => {
        console.error(error);
        said.replaceChildren(LEARN.failed);
      },
    );
  });
  return h('p', { class: 'learn-print no-print' }, button, ' ', said);
}
