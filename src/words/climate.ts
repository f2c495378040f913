/** The climate of the place in words. */
import { type ClimateQuantity, type Month, MONTHS } from '../core/pool/climate.ts';
import { convert, type UnitSystem } from '../core/water/units.ts';
import { numberText } from './numbers.ts';
import { rainUnit, temperatureText, withUnit } from './units.ts';

const MONTH_NAMES: Readonly<Record<Month, string>> = {
  jan: 'January',
  feb: 'February',
  mar: 'March',
  apr: 'April',
  may: 'May',
  jun: 'June',
  jul: 'July',
  aug: 'August',
  sep: 'September',
  oct: 'October',
  nov: 'November',
  dec: 'December',
};

export const CLIMATE_NAMES: Readonly<Record<ClimateQuantity, string>> = {
  airC: 'mean air temperature',
  rainMm: 'rain',
};

export function monthName(month: Month): string {
  return MONTH_NAMES[month];
}

interface ClimatePlace {
  readonly month: Month;
  readonly quantity: ClimateQuantity;
}

/** @param place in the plan's input: "pool.climate.jun.airC" */
export function climateIn(place: string): ClimatePlace | null {
  const [, id, quantity] = /^pool\.climate\.([a-z]+)\.(airC|rainMm)$/.exec(place) ?? [];
  const month = MONTHS.find((each) => each === id);
  return month && quantity ? { month, quantity: quantity as ClimateQuantity } : null;
}

/** "mean air temperature of June" */
export function climateName({ month, quantity }: ClimatePlace): string {
  return `${CLIMATE_NAMES[quantity]} of ${monthName(month)}`;
}

export function climateText({ quantity }: ClimatePlace, metric: number, units: UnitSystem): string {
  if (quantity === 'airC') return temperatureText(metric, units);
  const rain = units === 'us' ? convert('length', metric, 'mm', 'in') : metric;
  return withUnit(numberText(rain, { figures: 4 }), rainUnit(units));
}
