/** How far the water is from balance with calcite. */
import { constantsAt } from './composition.ts';
import { speciate } from './equilibrium.ts';
import type { Water } from './water.ts';

/**
 * Calcite saturation index, log (ion activity product / solubility product): above 0 it can scale, below 0 it can etch.
 * -Infinity without calcium or carbonate.
 */
export function saturationIndex(water: Water): number {
  const at = constantsAt(water.temperatureC);
  const { calciumIon, carbonate, logGamma1 } = speciate(water, at);
  return Math.log10(calciumIon) + Math.log10(carbonate) + 8 * logGamma1 - at.logCalcite;
}
