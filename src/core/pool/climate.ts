/** The climate of the place by months, as weather services publish it: typed once, or left out. */

export const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'] as const;
export type Month = (typeof MONTHS)[number];

/** Wider than the coldest, hottest and wettest months on record. From memory, no source. */
export const CLIMATE_BOUNDS = { airC: { min: -60, max: 45 }, rainMm: { min: 0, max: 4000 } } as const;
export type ClimateQuantity = keyof typeof CLIMATE_BOUNDS;
const QUANTITIES: readonly ClimateQuantity[] = ['airC', 'rainMm'];

/** Of a month: mean air temperature, °C, and rain, mm. What isn't known is blank. */
export type MonthClimate = Readonly<Partial<Record<ClimateQuantity, number | undefined>>>;
export type Climate = Readonly<Partial<Record<Month, MonthClimate | undefined>>>;

/** What a pool's record holds of it, by its place in the plan's input. */
export function climateOf(details: Readonly<Record<string, unknown>>): Climate {
  const told = (month: Month) =>
    QUANTITIES.flatMap((quantity): [ClimateQuantity, number][] => {
      const value = details[`pool.climate.${month}.${quantity}`];
      const { min, max } = CLIMATE_BOUNDS[quantity];
      return typeof value === 'number' && value >= min && value <= max ? [[quantity, value]] : [];
    });
  return Object.fromEntries(MONTHS.map((month) => [month, Object.fromEntries(told(month))]));
}

interface Lying {
  readonly heater?: unknown;
  readonly exposure?: unknown;
}

/**
 * °C of water that nobody measured: near the month's mean air temperature, and rather warmer in the sun. As wide as what
 * is taken without a climate. Common practice, no source.
 * @returns null where the month isn't known, or heater or roof decide
 */
export function waterByAir(climate: Climate | undefined, month: Month | undefined, { heater, exposure }: Lying) {
  const typed = month && climate?.[month]?.airC;
  if (typed === undefined || (heater ?? 'none') !== 'none' || exposure === 'covered') return null;
  // Under ice there is water.
  const value = Math.max(0, typed);
  return { value, low: Math.max(0, value - 5), high: Math.min(45, value + 10) };
}

/** Days of a mean month. */
export const MONTH_DAYS = 365.25 / 12;

/**
 * mm a day that evaporate from open water. Common practice, no source: 5 in a usual month of summer, of 25 °C; and as much
 * less in a colder one as the air holds less, which halves with every 11 °C.
 */
export function evaporationMm(airC = 25): number {
  return 5 * 2 ** ((airC - 25) / 11);
}

/** mm a day that run over in a usual month: what rains beyond what evaporates. */
export function runsOverMm({ airC, rainMm = 0 }: MonthClimate): number {
  return Math.max(0, rainMm / MONTH_DAYS - evaporationMm(airC));
}
