/** The plan: what speaks against swimming, what to do in which order, what to test again. Pure: same input, same plan. */
import { turnover } from '../../pool/turnover.ts';
import { parsePlanInput, type PlanInput } from '../../pool/schema.ts';
import { WaterError } from '../errors.ts';
import { product } from '../products.ts';
import { TARGET_IDS, targetsFor, type TargetId } from '../targets.ts';
import { isMaybeBleached } from './bleached.ts';
import { casesOf, type Cases } from './cases.ts';
import { costOf } from './cost.ts';
import { BEYOND, contradictions } from './contradictions.ts';
import { type Context, type Draft, type Drafted } from './draft.ts';
import { movesSomething, tooLittle, withEffect } from './effects.ts';
import { endChecks } from './end.ts';
import { knownWater, type KnownWater } from './known.ts';
import { inOrder, isChlorine, waitBefore } from './order.ts';
import { predicted, spanIn } from './predicted.ts';
import { retestsOf } from './retest.ts';
import { generalCautions } from './general-cautions.ts';
import { holdWith } from './hold.ts';
import { judge } from './span.ts';
import { balanceStep, BLEACHING, isBleached } from './steps/alkalinity-and-ph.ts';
import { chlorineStep, goalOf } from './steps/chlorine.ts';
import { isMaybeCombined } from './steps/combined.ts';
import { cleanStep } from './steps/clean.ts';
import { lookForScaleStep } from './steps/look-for-scale.ts';
import { hardnessStep } from './steps/hardness.ts';
import { replaceWaterStep } from './steps/replace-water.ts';
import { saltStep, stabilizerStep } from './steps/salt-and-stabilizer.ts';
import type { Known, PredictedWater, Span } from './spanned.ts';
import type { Step, StepKind } from './step.ts';
import type { Assumption, Finding, Hold, NothingNeeded, PlanOutcome } from './types.ts';
import { toldOf } from './told.ts';
import { upkeepOf } from './upkeep.ts';
import { verdict } from './verdict.ts';
import { withKind } from './kind.ts';

/** Hours for one turnover where the pump isn't known. Common practice, no source. */
const USUAL_TURNOVER_HOURS = 8;
/** Between the parts of a dose. Common practice, no source. */
const MIN_HOURS_BETWEEN_PARTS = 4;
const HOURS_BETWEEN_CHLORINE = 2;

/** From unchecked input; what is wrong with it comes back as issues. */
export function planFrom(input: unknown): PlanOutcome {
  const parsed = parsePlanInput(input);
  if (parsed.ok) return makePlan(parsed.input);
  return parsed;
}

export function makePlan(given: PlanInput): PlanOutcome {
  const input = withKind(given);
  const { known, assumptions } = knownWater(input);
  const issues = contradictions(input, known);
  if (issues.length > 0) return { ok: false, issues };
  try {
    return planWith(input, known, assumptions);
  } catch (error) {
    if (error instanceof WaterError) return { ok: false, issues: [BEYOND] };
    throw error;
  }
}

function planWith(input: PlanInput, known: KnownWater, assumptions: readonly Assumption[]): PlanOutcome {
  const cases = casesOf(known, volumeSpan(input));
  const first = contextOf(input, known, known['cyanuric-acid'].value);
  const planned = draft(first, cases);
  const { context } = planned;
  const drafts = withEffects(planned.drafts, cases);
  const holds = [...planned.holds, ...tooLittle(planned.drafts, drafts)];
  const steps = simulate(context, drafts, cases);
  const now = predicted(cases);
  const end = steps.at(-1)?.after ?? now;
  const findings = findingsOf(first, now.saturationIndex);
  const kept = upkeepOf(context, drafts, end);
  const strengths = strengthAssumptions(input, drafts);
  return {
    ok: true,
    plan: {
      input,
      targets: context.targets,
      verdict: verdict(input, known, first.targets),
      now,
      findings,
      assumptions: [...assumptions, ...planned.assumptions, ...strengths, ...kept.assumptions].map((assumption) =>
        withEffect(assumption, now.water),
      ),
      holds,
      steps,
      nothingNeeded: nothingNeeded(steps, holds, findings),
      upkeep: kept.upkeep,
      cost: costOf(steps, kept.upkeep),
      told: toldOf(input),
      end,
      endChecks: endChecks({ context, end, drafts, holds, beforeChlorine: indexBeforeChlorine(now, steps) }),
      retests: retestsOf(context, drafts, holds, end.water.freeChlorine >= BLEACHING),
      generalCautions: generalCautions(first, drafts),
    },
  };
}

export function volumeSpan({ pool }: Pick<PlanInput, 'pool'>): Span {
  const { volumeLitres: value, volumeLowLitres, volumeHighLitres } = pool;
  return { value, low: volumeLowLitres ?? value, high: volumeHighLitres ?? value };
}

export function turnoverHours({ pool: { pump, volumeLitres } }: Pick<PlanInput, 'pool'>): number {
  return pump ? turnover(volumeLitres, pump).hours : USUAL_TURNOVER_HOURS;
}

/** @param cyanuricAcid that the chlorine is scaled to */
function contextOf(input: PlanInput, known: KnownWater, cyanuricAcid: number): Context {
  return {
    input,
    known,
    targets: targetsFor(input.pool, cyanuricAcid, input.targets),
    volume: volumeSpan(input),
    turnoverHours: turnoverHours(input),
  };
}

interface Planned {
  /** With the chlorine scaled to the stabilizer that the water will have. */
  readonly context: Context;
  readonly drafts: readonly Draft[];
  readonly holds: readonly Hold[];
  readonly assumptions: readonly Assumption[];
}

function draft(first: Context, cases: Cases): Planned {
  if (isMaybeBleached(first)) return bleachCheckFirst(first);
  const replaced = replaceWaterStep(first);
  const renewed = replaced.draft ? replaced.draft.apply(cases) : cases;
  // With the fill water unknown, what the rest needs is anyone's guess.
  const isGuess = replaced.assumptions.length > 0;
  const isFighting = goalOf(first, renewed) !== null || isMaybeCombined(first);
  const context = contextOf(first.input, first.known, cyanuricAcidInTheEnd(first, renewed, isFighting));
  const balance = isGuess
    ? heldBack('total-alkalinity', 'ph')
    : balanceStep(context, renewed, {
        pending: pendingFor(context, renewed, isFighting),
        chlorinated: (state) => after([chlorineStep(context, state)], state),
      });
  const balanced = after([withoutLast(balance)], renewed);
  const chlorine = chlorineStep(context, balanced);
  // Whatever those brought of it already counts.
  const rest = additionsOrHolds(context, after([chlorine], balanced), isGuess, isFighting);
  const parts = [cleanStep(context), balance, chlorine, ...rest, lookForScaleStep(context, replaced.draft !== null)];
  const drafts = parts.flatMap((part) => part.drafts);
  return {
    context,
    drafts: inOrder(replaced.draft ? [replaced.draft, ...drafts] : drafts),
    holds: parts.flatMap((part) => part.holds),
    assumptions: replaced.assumptions,
  };
}

/** Nothing is dosed before it is known whether there is no chlorine or far too much. */
function bleachCheckFirst(context: Context): Planned {
  const { holds } = holdWith('free-chlorine', 'maybe-bleached', 'bleach-check');
  return { context, drafts: cleanStep(context).drafts, holds, assumptions: [] };
}

function additionsOrHolds(context: Context, cases: Cases, isGuess: boolean, isFighting: boolean): Drafted[] {
  if (isGuess) return [heldBack('calcium-hardness')];
  // With bleached pads the other readings are no better than the pH.
  return isBleached(context) ? [] : additions(context, cases, isFighting);
}

/** What only adds up. */
function additions(context: Context, cases: Cases, isFighting: boolean): Drafted[] {
  const stabilizer = stabilizerStep(context, cases, isFighting);
  return [hardnessStep(context, cases, after([stabilizer], cases), isFighting), saltStep(context, cases), stabilizer];
}

/** What the additions will do to any water, before it is known how much of them the other steps bring. */
function pendingFor(context: Context, cases: Cases, isFighting: boolean): (cases: Cases) => Cases {
  const parts = additions(context, cases, isFighting);
  return (state) => after(parts, state);
}

function cyanuricAcidInTheEnd(context: Context, cases: Cases, isFighting: boolean): number {
  return spanIn(after([stabilizerStep(context, cases, isFighting)], cases), 'cyanuricAcid').value;
}

function after(parts: readonly Drafted[], cases: Cases): Cases {
  return parts.flatMap(({ drafts }) => drafts).reduce((state, one) => one.apply(state), cases);
}

function withoutLast({ drafts, holds }: Drafted): Drafted {
  return { drafts: drafts.filter(({ last }) => !last), holds };
}

function heldBack(...targets: TargetId[]): Drafted {
  return { drafts: [], holds: targets.map((target) => ({ target, reason: 'after-dilution', remedy: 'repeat-test' })) };
}

/** Steps that move nothing a test can tell are left out. */
function withEffects(drafts: readonly Draft[], cases: Cases): Draft[] {
  let state = cases;
  return drafts.filter((one) => {
    const next = one.apply(state);
    if (!movesSomething(one, state.likely.water, next.likely.water)) return false;
    state = next;
    return true;
  });
}

function simulate(context: Context, drafts: readonly Draft[], cases: Cases): Step[] {
  let state = cases;
  return drafts.map((one, i) => {
    state = one.apply(state);
    return { ...stepOf(context, one, drafts.slice(0, i)), after: predicted(state) };
  });
}

function indexBeforeChlorine(now: PredictedWater, steps: readonly Step[]): Span | null {
  const at = steps.findIndex(({ kind }) => isChlorine(kind));
  return at < 0 ? null : (steps[at - 1]?.after ?? now).saturationIndex;
}

function stepOf(context: Context, draft: Draft, before: readonly Draft[]): Omit<Step, 'after'> {
  const { id, kind, choice, amount, parts, replace, offer, toPh, hours, how } = draft;
  const { circulateMinutes, notes, cautions, why } = draft;
  return {
    id,
    kind,
    ...(choice && { choice }),
    ...(amount && { amount }),
    parts,
    hoursBetweenParts: parts > 1 ? hoursBetween(context, kind) : 0,
    ...(replace && { replace }),
    ...(offer && { offer }),
    ...(toPh !== undefined && { toPh }),
    ...(hours !== undefined && { hours }),
    how,
    circulateMinutes,
    waitFirst: waitBefore(context, draft, before),
    notes,
    cautions,
    why,
  };
}

/** Chlorine acts at once and shouldn't wait for a whole turnover. */
export function hoursBetween({ turnoverHours }: Pick<Context, 'turnoverHours'>, kind: StepKind): number {
  return isChlorine(kind) ? HOURS_BETWEEN_CHLORINE : Math.max(MIN_HOURS_BETWEEN_PARTS, turnoverHours);
}

function findingsOf({ known, targets }: Context, index: Span): Finding[] {
  return TARGET_IDS.map((target): Finding => {
    const one = knownFor(target, known, index);
    const against = targets[target];
    const judgement = !one || one.from === 'assumed' ? 'unknown' : judge(one, against);
    return { target, known: one, against, judgement };
  });
}

function knownFor(target: TargetId, known: KnownWater, index: Span): Known | null {
  if (target !== 'saturation-index') return known[target];
  const guessed = (['ph', 'total-alkalinity', 'calcium-hardness'] as const).some((id) => known[id].from === 'assumed');
  return { ...index, from: guessed ? 'assumed' : 'derived', open: null };
}

function nothingNeeded(
  steps: readonly Step[],
  holds: readonly Hold[],
  findings: readonly Finding[],
): NothingNeeded | null {
  if (steps.length > 0) return null;
  if (holds.length > 0) return 'only-holds';
  const out = findings.some(({ judgement }) => judgement === 'low' || judgement === 'high');
  return out ? 'out-but-not-to-be-dosed' : 'all-in-range';
}

function strengthAssumptions({ shelf }: PlanInput, drafts: readonly Draft[]): Assumption[] {
  return drafts.flatMap(({ choice }): Assumption[] => {
    if (!choice || product(choice.product).strengths.length === 1) return [];
    const labelled = shelf.some((item) => item.product === choice.product && item.strength !== undefined);
    if (labelled) return [];
    const value = choice.strength;
    return [{ code: 'strength', product: choice.product, span: { value, low: value, high: value } }];
  });
}
