/** How much acid a pool takes, as it is bought. */
import { settings } from '../../browser/settings.ts';
import type { LearntRate } from '../../core/log/chlorine-use.ts';
import { hydrochloricMmolPerMl } from '../../core/water/strength.ts';
import { convert } from '../../core/water/units.ts';
import { rateText } from './measures.ts';

/** mL of muriatic acid as it is mostly sold, in mol. */
const ML_PER_MOL = 1000 / hydrochloricMmolPerMl(31.45);

/** Moles of acid: "0.2 (0 to 0.4)" and "L of hydrochloric acid (31.45 %)", or in fluid ounces. */
export function acidTexts(acid: LearntRate): readonly [string, string] {
  const isUs = settings.units() === 'us';
  const perMol = isUs ? convert('volume', ML_PER_MOL, 'mL', 'fl oz') : ML_PER_MOL / 1000;
  return [rateText(acid, perMol), `${isUs ? 'US fl oz' : 'L'} of hydrochloric acid (31.45 %)`];
}
