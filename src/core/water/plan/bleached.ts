/** Chlorine so high that it bleaches the pads reads as none: told by the pads beside it. */
import type { Context } from './draft.ts';

/** mg/L of free chlorine that counts as a pad that stayed white. */
const NONE = 0.5;

/**
 * A free chlorine of about 0 beside pads that the owner sees pale, or beside a pH or an alkalinity off the low end of
 * its scale: from memory, unverified (strip chemistry: very much chlorine bleaches the dyes).
 */
export function isMaybeBleached({ input: { look }, known }: Context): boolean {
  const free = known['free-chlorine'];
  if (free.from === 'assumed' || free.value > NONE) return false;
  if (look.padsPale !== undefined) return look.padsPale;
  const { ph, 'total-alkalinity': alkalinity } = known;
  return ph.open === 'below' && (alkalinity.open === 'below' || alkalinity.value === 0);
}
