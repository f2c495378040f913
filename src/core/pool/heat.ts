/**
 * Warming the pool. Losses to air, ground and night sky are not counted: real heating takes longer, a cover keeps
 * most of it in.
 */

/**
 * kJ to warm one litre by one degree: saturated water at 300 K, 0.075320 kJ/(mol K) x 55.315 mol/L, after IAPWS-95 in
 * Perry's Chemical Engineers' Handbook, 9th ed., table 2-135. From 7 to 37 °C it stays within 0.5 %.
 */
const HEAT_CAPACITY_KJ_PER_LITRE_K = 0.07532 * 55.315;
const KWH_PER_LITRE_K = HEAT_CAPACITY_KJ_PER_LITRE_K / 3600;

/** kWh to warm the water by so many °C. */
export function heatNeeded(volumeLitres: number, riseC: number): number {
  return KWH_PER_LITRE_K * volumeLitres * riseC;
}
