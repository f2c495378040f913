/** What the quantities are called: the one list of their names. */
import type { QuantityId } from '../core/measurement/quantities.ts';
import { capitalised } from './grammar.ts';

interface Name {
  /** As it stands within a sentence. */
  readonly name: string;
  /** In a plan, whose products go by other names; left out: the same. */
  readonly inPlan?: string;
}

const NAMES: Readonly<Record<QuantityId, Name>> = {
  'free-chlorine': { name: 'free chlorine' },
  'total-chlorine': { name: 'total chlorine' },
  ph: { name: 'pH' },
  'total-alkalinity': { name: 'total alkalinity' },
  'total-hardness': { name: 'total hardness' },
  'calcium-hardness': { name: 'calcium hardness' },
  'cyanuric-acid': { name: 'cyanuric acid', inPlan: 'stabilizer (cyanuric acid)' },
  salt: { name: 'salt' },
  boron: { name: 'boron', inPlan: 'borate (as boron)' },
  temperature: { name: 'water temperature', inPlan: 'temperature' },
};

/** "free chlorine", "pH" */
export function quantityName(quantity: QuantityId): string {
  return NAMES[quantity].name;
}

/** "Free chlorine", "pH": at the head of a row or a sentence. */
export function quantityTitle(quantity: QuantityId): string {
  return capitalised(quantityName(quantity));
}

/** "stabilizer (cyanuric acid)" */
export function quantityInPlan(quantity: QuantityId): string {
  const { name, inPlan = name } = NAMES[quantity];
  return inPlan;
}
