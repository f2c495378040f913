/** What is done at an occasion or as care, in words: titles, and a sentence for each code with its figures. */
import type { RoutineItem } from '../../core/water/routines/item.ts';
import type { RoutineId } from '../../core/water/routines/routine.ts';
import { convert, convertTemperature, type UnitSystem } from '../../core/water/units.ts';
import { numberText } from '../numbers.ts';
import { CARE, type Written } from './routines/care.ts';
import { GREEN } from './routines/green.ts';
import { OCCASIONS } from './routines/occasions.ts';
import { SEASONS } from './routines/seasons.ts';

const TITLES: Record<RoutineId, string> = {
  'after-rain': 'After rain',
  'after-party': 'After a party',
  'before-leaving': 'Before leaving',
  'green-water': 'Green water',
  'clean-filter': 'Clean the filter',
  'cell-care': 'Look after the cell',
  warming: 'Warm the water',
  opening: 'Open the pool',
  closing: 'Close the pool',
};

export function routineTitle(id: RoutineId): string {
  return TITLES[id];
}

/** Where more is said, a page under /learn/. */
export const ROUTINE_PAGES: Record<RoutineId, string> = {
  'after-rain': 'a-season',
  'after-party': 'a-season',
  'before-leaving': 'a-season',
  'green-water': 'green-water',
  'clean-filter': 'filter',
  'cell-care': 'chlorinator',
  warming: 'temperature',
  opening: 'opening-and-closing',
  closing: 'opening-and-closing',
};

export const ROUTINE_PRACTICE =
  'Order and figures: common practice, no source. The book of your equipment, the labels and local rules come first.';

const SENTENCES: Readonly<Record<string, Written>> = { ...OCCASIONS, ...GREEN, ...CARE, ...SEASONS };

export function itemText({ code, figures }: RoutineItem, units: UnitSystem): string {
  const written = SENTENCES[code];
  if (written === undefined) throw new Error(`no sentence for ${code}`);
  return typeof written === 'string' ? written : written(figures, show(units));
}

/** Figures in the visitor's units. */
export interface Show {
  litres: (value: number) => string;
  kilograms: (grams: number) => string;
  degrees: (celsius: number) => string;
  /** A difference of temperatures. */
  rise: (celsius: number) => string;
  /** kWh for each degree, in the visitor's degrees. */
  perDegree: (kilowattHours: number) => string;
  area: (squareMetres: number) => string;
  pressure: (bar: number) => string;
  hours: (value: number) => string;
  plain: (value: number, figures?: number) => string;
}

export function show(units: UnitSystem): Show {
  const isUs = units === 'us';
  const plain = (value: number, figures = 2) => numberText(Number(value.toPrecision(figures)), { figures });
  return {
    plain,
    litres: (value) => (isUs ? `${plain(convert('volume', value, 'L', 'gal'))} US gal` : `${plain(value)} L`),
    kilograms: (grams) =>
      isUs
        ? `${plain(convert('mass', grams, 'g', 'lb'))} lb`
        : grams < 1000
          ? `${plain(grams)} g`
          : `${plain(grams / 1000)} kg`,
    degrees: (celsius) =>
      isUs
        ? `${numberText(Math.round(convertTemperature(celsius, 'C', 'F')))} °F`
        : `${numberText(Math.round(celsius))} °C`,
    rise: (celsius) => (isUs ? `${plain(convertTemperature(celsius, 'C', 'F') - 32)} °F` : `${plain(celsius)} °C`),
    perDegree: (kilowattHours) =>
      isUs ? `Each °F takes ${plain(kilowattHours / 1.8)} kWh` : `Each °C takes ${plain(kilowattHours)} kWh`,
    area: (squareMetres) =>
      isUs ? `${plain(convert('area', squareMetres, 'm2', 'ft2'))} sq ft` : `${plain(squareMetres)} m²`,
    pressure: (bar) => (isUs ? `${plain(convert('pressure', bar, 'bar', 'psi'))} psi` : `${plain(bar)} bar`),
    hours: (value) => `${plain(Math.max(0.5, value))} ${value === 1 ? 'hour' : 'hours'}`,
  };
}
