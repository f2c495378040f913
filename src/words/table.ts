/** What is said of the columns of an ordinary table. */
import type { Meaning } from '../core/log/wide-table.ts';
import { quantityTitle } from './quantities.ts';

export const TABLE = {
  title: 'What its columns were taken for',
  order: 'Dates as 03/04/2026 are',
  unnamed: '(no name)',
  column: (header: string) => `Column ${header}: what it holds`,
} as const;

export const DATE_ORDERS = [{ name: '3 April' }, { name: '4 March' }] as const;

export function meaningText(meaning: Meaning): string {
  switch (meaning) {
    case 'none':
      return 'left out';
    case 'date':
      return 'the date';
    case 'time':
      return 'the time of day';
    case 'note':
      return 'a note';
    case 'temperature':
      return `${quantityTitle('temperature')}, °C`;
    case 'temperature-f':
      return `${quantityTitle('temperature')}, °F`;
    default:
      return quantityTitle(meaning);
  }
}
