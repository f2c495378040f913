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

/** Sun on a collector in the good hours of a clear day, kW/m². Common practice, no source. */
export const SUN_KW_PER_M2 = 0.8;
/** Share of it that an unglazed collector hands to water about as warm as the air. Common practice, no source. */
export const COLLECTOR_SHARE = 0.7;

/** kW that a flow takes up while it gets warmer by so many °C. */
export function heatTakenUp(litresPerHour: number, riseC: number): number {
  return KWH_PER_LITRE_K * litresPerHour * riseC;
}

/** °C by which a flow gets warmer from so many kW. */
export function riseFrom(kilowatts: number, litresPerHour: number): number {
  return kilowatts / (KWH_PER_LITRE_K * litresPerHour);
}

/** kWh to warm the water by so many °C. */
export function heatNeeded(volumeLitres: number, riseC: number): number {
  return KWH_PER_LITRE_K * volumeLitres * riseC;
}
