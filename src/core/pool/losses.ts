/**
 * What a season does to things that leave only with the water (salt, stabilizer, hardness).
 * Evaporation takes pure water; splash, backwash and overflow take pool water; the level is kept by fill water.
 */
export interface WaterBalance {
  readonly volumeLitres: number;
  readonly surfaceM2: number;
  /** Common practice, no source, where not measured: 3-8 mm a day over an open pool in summer. */
  readonly evaporationMmPerDay: number;
  readonly rainMmPerDay: number;
  readonly splashLitresPerDay: number;
  readonly backwashLitresPerDay: number;
}

export interface DailyFlows {
  /** Fill water needed to keep the level, L/day. */
  readonly fillLitres: number;
  /** Pool water that runs over because it rains more than is lost, L/day. */
  readonly overflowLitres: number;
  /** Pool water that leaves with what is in it: splash, backwash and overflow, L/day. */
  readonly outLitres: number;
}

/** One millimetre on one square metre is one litre. */
export function dailyFlows(balance: WaterBalance): DailyFlows {
  const rain = balance.rainMmPerDay * balance.surfaceM2;
  const evaporation = balance.evaporationMmPerDay * balance.surfaceM2;
  const carried = balance.splashLitresPerDay + balance.backwashLitresPerDay;
  const short = evaporation + carried - rain;
  const overflowLitres = Math.max(0, -short);
  return { fillLitres: Math.max(0, short), overflowLitres, outLitres: carried + overflowLitres };
}

/**
 * Concentration after some days of steady flows, mg/L: the exact solution of V dc/dt = fill x c_fill - out x c.
 * @param start what the pool holds now
 * @param inFill what the fill water holds
 */
export function concentrationAfter(balance: WaterBalance, start: number, inFill: number, days: number): number {
  const { fillLitres, outLitres } = dailyFlows(balance);
  const rate = outLitres / balance.volumeLitres;
  // (1 - exp(-kt)) / k, which is t where nothing leaves.
  const weight = rate === 0 ? days : -Math.expm1(-rate * days) / rate;
  return start * Math.exp(-rate * days) + (fillLitres / balance.volumeLitres) * inFill * weight;
}
