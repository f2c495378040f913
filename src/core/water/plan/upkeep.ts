/** What keeps the chlorine up from day to day, once the water is right. */
import {
  assumedUse,
  chlorinatorHours,
  madePerDay,
  measuredUse,
  seasonSettings,
  timerSetting,
  type ChlorineUse,
} from '../../pool/chlorinator.ts';
import { waterByAir } from '../../pool/climate.ts';
import type { Measured } from '../../pool/schema.ts';
import { MOLAR_MASS } from '../constants.ts';
import type { ProductId } from '../products.ts';
import { isMaybeBleached } from './bleached.ts';
import { choose } from './choose.ts';
import { amountOf } from './dose.ts';
import type { Context, Draft } from './draft.ts';
import { chlorinePerMmol } from './steps/chlorine.ts';
import { COLD_FOR_CELLS } from './steps/chlorinator-run.ts';
import type { PredictedWater, Span } from './spanned.ts';
import type { StepKind } from './step.ts';
import type { Assumption, Pause, Upkeep } from './types.ts';

const BY_HAND: Record<'hypochlorite' | 'trichlor' | 'dichlor', readonly [ProductId, ...ProductId[]]> = {
  hypochlorite: ['sodium-hypochlorite', 'household-bleach', 'calcium-hypochlorite'],
  trichlor: ['trichlor'],
  dichlor: ['dichlor'],
};

export interface Kept {
  readonly upkeep: Upkeep | null;
  readonly assumptions: readonly Assumption[];
}

/** mg/L of stabilizer with one mg/L of chlorine: see D075 and D076 of `test/reference/dose-facts.csv`. */
const STABILIZER_PER_CHLORINE: Partial<Record<ProductId, number>> = {
  trichlor: MOLAR_MASS.cyanuricAcid / (3 * MOLAR_MASS.Cl2),
  dichlor: MOLAR_MASS.cyanuricAcid / (2 * MOLAR_MASS.Cl2),
};

/**
 * @param drafts of the plan: while algae are being killed or chlorine has to fall, no day is like another
 * @param end the water they leave
 */
export function upkeepOf(context: Context, drafts: readonly Draft[], end: PredictedWater): Kept {
  const { input, volume } = context;
  const { pool } = input;
  const exceptional: readonly StepKind[] = ['clear-algae', 'wait-for-chlorine', 'lower-chlorine'];
  if (drafts.some(({ kind }) => exceptional.includes(kind)) || isMaybeBleached(context)) {
    return { upkeep: null, assumptions: [] };
  }
  const use = useOf(context);
  const assumptions: Assumption[] = use.basis === 'assumed' ? [{ code: 'chlorine-use', span: use }] : [];
  const pause = pauseOf(context, use, drafts, end);
  const isCold = pool.chlorination === 'chlorinator' && isColdForCells(context);
  if (pool.chlorination !== 'chlorinator' || isCold) {
    return { upkeep: { ...byHand(context, use, isCold), pause }, assumptions };
  }
  if (!pool.cell) return { upkeep: { kind: 'use-only', use, pause }, assumptions };
  const timer = timerSetting(volume.value, use, pool.cell, pool.pump?.hoursPerDay);
  const hours = chlorinatorHours(volume.value, use, pool.cell);
  const makes = madePerDay(volume.value, pool.cell, timer.hours);
  const seasons = seasonSettings(volume.value, use, pool.cell, pool.pump?.hoursPerDay, warmthOf(context));
  return { upkeep: { kind: 'chlorinator', use, ...hours, timer, makes, seasons, pause }, assumptions };
}

function byHand(
  { input, known, targets, volume }: Context,
  use: ChlorineUse,
  isCold: boolean,
): Omit<Extract<Upkeep, { kind: 'product' }>, 'pause'> {
  const { chlorination } = input.pool;
  const isStabilised = chlorination === 'trichlor' || chlorination === 'dichlor';
  const isEnough = isStabilised && hasStabilizerEnough({ known, targets });
  const usual = chlorination === 'chlorinator' || isEnough ? 'hypochlorite' : chlorination;
  const choice = choose(input, BY_HAND[usual]);
  const perMmol = chlorinePerMmol(choice.product as Parameters<typeof chlorinePerMmol>[0]);
  const mmol = (milligrams: number) => (milligrams / perMmol) * volume.value;
  return {
    kind: 'product',
    use,
    choice,
    amount: amountOf(choice, mmol(use.value), mmol(use.high)),
    stabilizerPerWeek: 7 * use.value * (STABILIZER_PER_CHLORINE[choice.product] ?? 0),
    instead: isCold ? 'of-cold-cell' : isEnough ? 'of-stabilised' : null,
  };
}

/** Above its target the chlorine is left to fall; without salt the cell stays off. */
function pauseOf(context: Context, use: ChlorineUse, drafts: readonly Draft[], end: PredictedWater): Pause | null {
  const { known, targets, input } = context;
  const { high, aim } = targets['free-chlorine'];
  const free = end.water.freeChlorine;
  const fromMeasured = known['free-chlorine'].from !== 'assumed';
  const isOnPurpose = drafts.some(({ kind, moves }) => kind === 'oxidise-combined' || moves.includes('total-chlorine'));
  if (fromMeasured && (free > high || (isOnPurpose && free > aim))) {
    return { reason: 'above-target', days: use.value > 0 ? (free - aim) / use.value : null };
  }
  if (input.pool.chlorination !== 'chlorinator' || known.salt.from === 'assumed') return null;
  // What raises it on the way has to dissolve first.
  const isLow = drafts.some(({ kind }) => kind === 'raise-salt') || end.water.salt < targets.salt.low;
  return isLow ? { reason: 'salt-low', days: null } : null;
}

function isColdForCells({ known: { temperature } }: Context): boolean {
  return temperature.from !== 'assumed' && temperature.value < COLD_FOR_CELLS;
}

function hasStabilizerEnough({ known, targets }: Pick<Context, 'known' | 'targets'>): boolean {
  const stabilizer = known['cyanuric-acid'];
  return stabilizer.from !== 'assumed' && stabilizer.value > targets['cyanuric-acid'].high;
}

/** °C of the water, by a thermometer or by the month's air; undefined where neither tells. */
function warmthOf({ input: { pool, month }, known: { temperature } }: Context): number | undefined {
  return temperature.from === 'assumed' ? waterByAir(pool.climate, month, pool)?.value : temperature.value;
}

function useOf(context: Context): ChlorineUse {
  const { input } = context;
  const { chlorineLoss: loss, pool } = input;
  const measured = loss && measuredUse({ ...loss, before: span(loss.before), after: span(loss.after) });
  if (measured) return measured;
  if (input.chlorineUse) return { ...input.chlorineUse, basis: 'learnt' };
  const exposure = pool.exposure === 'covered' ? 'covered' : pool.stabilised ? 'sun-stabilised' : 'sun-unstabilised';
  return assumedUse(exposure, warmthOf(context), pool.cover);
}

function span({ value, low, high }: Measured): Span {
  return { value, low: low ?? value, high: high ?? value };
}
