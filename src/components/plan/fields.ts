/** The readings a person can enter, in the order they are asked for. */
import type { QuantityId } from '../../core/measurement/quantities.ts';
import { quantityTitle } from '../../words/quantities.ts';

export interface ReadingField {
  readonly id: QuantityId;
  readonly name: string;
  readonly unit: 'mg/L' | '' | 'temperature';
  readonly hint?: string;
}

export const STRIP_FIELDS: readonly ReadingField[] = [
  field('free-chlorine'),
  field('total-chlorine'),
  { ...field('ph'), unit: '' },
  field('total-alkalinity'),
  field('total-hardness'),
  { ...field('cyanuric-acid'), name: 'Cyanuric acid (stabilizer)' },
];

export const UNSEEN_FIELDS: readonly ReadingField[] = [
  { ...field('temperature'), unit: 'temperature' },
  { ...field('salt'), hint: 'from a meter or the chlorinator’s display' },
  { ...field('calcium-hardness'), hint: 'from a drop test, if you have one' },
  { ...field('boron'), hint: 'only if borate has been added' },
];

function field(id: QuantityId): ReadingField {
  return { id, name: quantityTitle(id), unit: 'mg/L' };
}
