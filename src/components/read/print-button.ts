/** Where another print was read: lets the owner's scale know it by this strip, once two of its values are known. */
import type { Entry } from '../../core/reading/entry.ts';
import type { PadQuantity } from '../../core/measurement/quantities.ts';
import { LEARN_PRINT } from '../../words/learnt.ts';
import { h } from '../dom.ts';
import { learnButton } from './learn-button.ts';
import type { SheetData } from './sheet.ts';

/** Null where the print is known, or the colours of the photo are gone with the page it was read on. */
export function printButton(
  entries: () => readonly Entry[],
  { outcome, scale, seen }: Pick<SheetData, 'outcome' | 'scale' | 'seen'>,
): HTMLElement | null {
  if (!seen || scale.teachings.length === 0 || !outcome.warnings.includes('another-print')) return null;
  const button = h('button', { type: 'button' }, LEARN_PRINT.button);
  const said = learnButton(button, scale.id, async (kept) => {
    const { withPrintOf } = await import('./learning.ts');
    const byHand = entries().flatMap((entry): [PadQuantity, number][] =>
      entry.byHand ? [[entry.pad.quantity, entry.byHand.value]] : [],
    );
    const carried = withPrintOf(kept, { light: LEARN_PRINT.light, ...seen, values: Object.fromEntries(byHand) });
    return { scale: carried.scale, text: LEARN_PRINT[carried.reason ?? 'learnt'] };
  });
  return h('p', { class: 'learn-print no-print' }, button, ' ', said);
}
