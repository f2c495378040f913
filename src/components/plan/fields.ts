/** The readings a person can enter, in the order they are asked for. */
import type { QuantityId } from '../../core/measurement/quantities.ts';

export interface ReadingField {
  readonly id: QuantityId;
  readonly name: string;
  readonly unit: 'mg/L' | '' | 'temperature';
  readonly hint?: string;
}

export const STRIP_FIELDS: readonly ReadingField[] = [
  { id: 'free-chlorine', name: 'Free chlorine', unit: 'mg/L' },
  { id: 'total-chlorine', name: 'Total chlorine', unit: 'mg/L' },
  { id: 'ph', name: 'pH', unit: '' },
  { id: 'total-alkalinity', name: 'Total alkalinity', unit: 'mg/L' },
  { id: 'total-hardness', name: 'Total hardness', unit: 'mg/L' },
  { id: 'cyanuric-acid', name: 'Cyanuric acid (stabilizer)', unit: 'mg/L' },
];

export const UNSEEN_FIELDS: readonly ReadingField[] = [
  { id: 'temperature', name: 'Water temperature', unit: 'temperature' },
  { id: 'salt', name: 'Salt', unit: 'mg/L', hint: 'from a meter or the chlorinator’s display' },
  { id: 'calcium-hardness', name: 'Calcium hardness', unit: 'mg/L', hint: 'from a drop test, if you have one' },
  { id: 'boron', name: 'Boron', unit: 'mg/L', hint: 'only if borate has been added' },
];
