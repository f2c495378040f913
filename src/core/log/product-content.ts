/** What is in a measured amount of a product, for what the log learns from. */
import { MOLAR_MASS } from '../water/constants.ts';
import type { Measure } from '../water/measure.ts';
import { type Reagent, REAGENTS } from '../water/moves/reagents.ts';
import { moveOf, mmolPerUnit, product, type ProductId, type Purpose } from '../water/products.ts';
import { convert } from '../water/units.ts';
import type { AdditionEntry, Agent, AmountUnit } from './schema.ts';

const AGENT_OF: Record<Purpose, Agent> = {
  'lower-ph': 'acid',
  'raise-alkalinity': 'bicarbonate',
  'raise-ph': 'base',
  'raise-hardness': 'calcium',
  'raise-salt': 'salt',
  'raise-stabilizer': 'stabilizer',
  'raise-chlorine': 'chlorine',
  'lower-chlorine': 'chlorine-remover',
};

export function agentOf(id: ProductId): Agent {
  return AGENT_OF[product(id).purpose];
}

type Content = Pick<AdditionEntry, 'productId' | 'strength' | 'chlorineGrams' | 'acidMoles'>;

/** Of something that no product is known for. */
export const UNKNOWN_CONTENT: Content = { productId: null, strength: null, chlorineGrams: null, acidMoles: null };

/**
 * @param strength per cent on the product's own basis; null: the usual one
 * @returns nulls where the strength can't be, or where a liquid was weighed or a solid measured by volume
 */
export function productContent(id: ProductId, strength: number | null, amount: number, unit: AmountUnit): Content {
  const { form, strengths, maxStrength } = product(id);
  const units = inUnitsOf(form, amount, unit);
  const percent = strength ?? strengths[0];
  if (units === null || !(percent > 0 && percent <= maxStrength)) return { ...UNKNOWN_CONTENT, productId: id };
  const moles = (mmolPerUnit(id, percent) * units) / 1000;
  return {
    productId: id,
    strength,
    chlorineGrams: agentOf(id) === 'chlorine' ? moles * chlorinePerMole(id) * MOLAR_MASS.Cl2 : null,
    acidMoles: agentOf(id) === 'acid' ? moles : null,
  };
}

function chlorinePerMole(id: ProductId): number {
  const move = moveOf(id);
  if (move === 'thiosulfate') return 0;
  const { brings }: Reagent = REAGENTS[move === 'liquid-chlorine' ? 'sodium-hypochlorite' : move];
  return brings.chlorine ?? 0;
}

/** Millilitres of a liquid or grams of a solid. */
export function inUnitsOf(form: 'liquid' | 'solid', amount: number, unit: AmountUnit): number | null {
  switch (unit) {
    case 'mL':
    case 'L':
    case 'fl oz':
    case 'gal':
      return form === 'liquid' ? convert('volume', amount, unit, 'mL') : null;
    default:
      return form === 'solid' ? convert('mass', amount, unit, 'g') : null;
  }
}

/** A measure of two parts as one amount in the smaller unit. Null when there was too little to measure. */
export function singleAmount(measure: Measure): { readonly amount: number; readonly unit: AmountUnit } | null {
  const last = measure.at(-1);
  if (!last) return null;
  const amount = measure.reduce((sum, { value, unit }) => sum + inUnit(value, unit, last.unit), 0);
  return { amount: Number(amount.toPrecision(12)), unit: last.unit };
}

function inUnit(value: number, from: AmountUnit, to: AmountUnit): number {
  if (from === to) return value;
  const perLarge = to === 'fl oz' ? 128 : to === 'oz' ? 16 : 1000;
  return value * perLarge;
}
