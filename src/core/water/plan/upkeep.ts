/** What keeps the chlorine up from day to day, once the water is right. */
import { assumedUse, chlorinatorHours, measuredUse, type ChlorineUse } from '../../pool/chlorinator.ts';
import type { Measured } from '../../pool/schema.ts';
import { MOLAR_MASS } from '../constants.ts';
import type { ProductId } from '../products.ts';
import { choose } from './choose.ts';
import { amountOf } from './dose.ts';
import type { Context, Draft } from './draft.ts';
import { chlorinePerMmol } from './steps/chlorine.ts';
import type { Span } from './spanned.ts';
import type { StepKind } from './step.ts';
import type { Assumption, Upkeep } from './types.ts';

const BY_HAND: Record<'hypochlorite' | 'trichlor' | 'dichlor', readonly [ProductId, ...ProductId[]]> = {
  hypochlorite: ['sodium-hypochlorite', 'household-bleach', 'calcium-hypochlorite'],
  trichlor: ['trichlor'],
  dichlor: ['dichlor'],
};

export interface Kept {
  readonly upkeep: Upkeep | null;
  readonly assumptions: readonly Assumption[];
}

/** mg/L of stabilizer with one mg/L of chlorine: see dose-facts D075, D076. */
const STABILIZER_PER_CHLORINE: Partial<Record<ProductId, number>> = {
  trichlor: MOLAR_MASS.cyanuricAcid / (3 * MOLAR_MASS.Cl2),
  dichlor: MOLAR_MASS.cyanuricAcid / (2 * MOLAR_MASS.Cl2),
};

/** @param drafts of the plan: while algae are being killed or chlorine has to fall, no day is like another */
export function upkeepOf(context: Context, drafts: readonly Draft[]): Kept {
  const { input, volume } = context;
  const { pool } = input;
  const exceptional: readonly StepKind[] = ['clear-algae', 'wait-for-chlorine', 'lower-chlorine'];
  if (drafts.some(({ kind }) => exceptional.includes(kind))) return { upkeep: null, assumptions: [] };
  const use = useOf(context);
  const assumptions: Assumption[] = use.basis === 'assumed' ? [{ code: 'chlorine-use', span: use }] : [];
  if (pool.chlorination === 'chlorinator') {
    if (!pool.cell) return { upkeep: { kind: 'use-only', use }, assumptions };
    return { upkeep: { kind: 'chlorinator', use, ...chlorinatorHours(volume.value, use, pool.cell) }, assumptions };
  }
  const insteadOfStabilised = pool.chlorination !== 'hypochlorite' && hasStabilizerEnough(context);
  const choice = choose(input, BY_HAND[insteadOfStabilised ? 'hypochlorite' : pool.chlorination]);
  const perMmol = chlorinePerMmol(choice.product as Parameters<typeof chlorinePerMmol>[0]);
  const mmol = (milligrams: number) => (milligrams / perMmol) * volume.value;
  const amount = amountOf(choice, mmol(use.value), mmol(use.high));
  const stabilizerPerWeek = 7 * use.value * (STABILIZER_PER_CHLORINE[choice.product] ?? 0);
  return { upkeep: { kind: 'product', use, choice, amount, stabilizerPerWeek, insteadOfStabilised }, assumptions };
}

function hasStabilizerEnough({ known, targets }: Context): boolean {
  const stabilizer = known['cyanuric-acid'];
  return stabilizer.from !== 'assumed' && stabilizer.value > targets['cyanuric-acid'].high;
}

function useOf({ input }: Context): ChlorineUse {
  const { chlorineLoss: loss, pool } = input;
  const measured = loss && measuredUse({ ...loss, before: span(loss.before), after: span(loss.after) });
  if (measured) return measured;
  if (input.chlorineUse) return { ...input.chlorineUse, basis: 'learnt' };
  if (pool.exposure === 'covered') return assumedUse('covered');
  return assumedUse(pool.stabilised ? 'sun-stabilised' : 'sun-unstabilised');
}

function span({ value, low, high }: Measured): Span {
  return { value, low: low ?? value, high: high ?? value };
}
