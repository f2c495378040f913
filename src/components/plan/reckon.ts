/** What the readings alone say about the water, before any plan: its saturation index, with its span. */
import type { Measured, Readings } from '../../core/pool/schema.ts';
import { saturationIndex } from '../../core/water/saturation.ts';
import { waterOf } from '../../core/water/water.ts';

/** Taken where no temperature is given. */
export const ASSUMED_TEMPERATURE_C = 25;

export interface IndexSpan {
  readonly index: number;
  readonly low: number;
  readonly high: number;
}

export type IndexNeed = 'ph' | 'total-alkalinity' | 'hardness';

/** The index from the carbonate equilibrium, or what is still needed for it. */
export function indexOf(readings: Readings): IndexSpan | { readonly needs: readonly IndexNeed[] } {
  const { ph, 'total-alkalinity': alkalinity } = readings;
  const hardness = readings['calcium-hardness'] ?? readings['total-hardness'];
  if (!ph || !alkalinity || !hardness) {
    const needs: IndexNeed[] = [];
    if (!ph) needs.push('ph');
    if (!alkalinity) needs.push('total-alkalinity');
    if (!hardness) needs.push('hardness');
    return { needs };
  }
  const at = (end: 'value' | 'low' | 'high'): number =>
    saturationIndex(
      waterOf({
        ph: endOf(ph, end),
        totalAlkalinity: endOf(alkalinity, end),
        calciumHardness: endOf(hardness, end),
        temperatureC: readings.temperature?.value ?? ASSUMED_TEMPERATURE_C,
        salt: readings.salt?.value ?? 0,
        cyanuricAcid: readings['cyanuric-acid']?.value ?? 0,
        boron: readings.boron?.value ?? 0,
        freeChlorine: readings['free-chlorine']?.value ?? 0,
      }),
    );
  return { index: at('value'), low: at('low'), high: at('high') };
}

function endOf(measured: Measured, end: 'value' | 'low' | 'high'): number {
  return measured[end] ?? measured.value;
}
