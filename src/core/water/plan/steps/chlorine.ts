/** Free chlorine: up for today, up against algae, up to break combined chlorine, or down. */
import type { CautionCode } from '../../cautions.ts';
import { BREAKPOINT_FACTOR } from '../../chlorine.ts';
import { moveOf, type ProductId } from '../../products.ts';
import { bracketedRoot, type Place } from '../../root.ts';
import { REAGENTS } from '../../moves/reagents.ts';
import { CHLORINE_LIMIT, chlorineTarget, labelLimit, type Target } from '../../targets.ts';
import { CHLORINE_PER_MMOL, HARDNESS_PER_MMOL, type Water } from '../../water.ts';
import { addToWater, type Cases } from '../cases.ts';
import { choose } from '../choose.ts';
import { isMeasurable, massLines } from '../dose.ts';
import { doseDraft, NOTHING, partsFor, type Context, type Draft, type Drafted } from '../draft.ts';
import { holdFor, holdWith } from '../hold.ts';
import { spanIn } from '../predicted.ts';
import { SAFE_PH } from '../safe-band.ts';
import { judge, knownAs } from '../span.ts';
import type { Known } from '../spanned.ts';
import type { ArithmeticLine, StepKind, StepNote } from '../step.ts';
import { isMaybeCombined } from './combined.ts';
import { chlorinatorRun } from './chlorinator-run.ts';
import { lowerChlorine } from './lower-chlorine.ts';

/** Against algae: this share of the stabilizer, within these bounds, mg/L. Common practice, no source. */
const ALGAE = { perStabilizer: 0.4, min: 10, max: 20 } as const;
/** mg/L at a time, at most. Common practice, no source. */
const AT_A_TIME = 10;
/** The bottle strengths of chlorine that act at once, best first; tablets dissolve over days. */
const QUICK: readonly [ProductId, ...ProductId[]] = ['sodium-hypochlorite', 'household-bleach'];

/** mg/L of free chlorine that is held against algae. */
export function algaeLevel(cyanuricAcid: number): number {
  return Math.min(ALGAE.max, Math.max(ALGAE.min, ALGAE.perStabilizer * cyanuricAcid));
}

export interface Goal {
  readonly kind: StepKind;
  readonly to: number;
  readonly notes: readonly StepNote[];
}

export function chlorineStep(context: Context, cases: Cases): Drafted {
  const { known, targets } = context;
  const free = knownAs(known['free-chlorine'], spanIn(cases, 'freeChlorine'));
  if (free.from === 'assumed') return holdWith('free-chlorine', 'not-measured', 'measure');
  const combined = combinedHold(context);
  const target = targets['free-chlorine'];
  const goal = goalOf(context, cases);
  const judgement = judge(free, target);
  const more = (drafted: Drafted): Drafted => ({ ...drafted, holds: [...drafted.holds, ...combined.holds] });
  if (goal) return more({ drafts: free.high < goal.to ? raise(context, cases, free, goal) : [], holds: [] });
  if (judgement === 'low') {
    const to = Math.min(target.aim, CHLORINE_LIMIT);
    if (free.high >= to) return more(NOTHING);
    const notes = dissolves(cases, target) ? (['for-the-stabilizer-to-come'] as const) : [];
    return more({ drafts: raise(context, cases, free, { kind: 'raise-chlorine', to, notes }), holds: [] });
  }
  if (free.low >= CHLORINE_LIMIT) return more({ drafts: lowerChlorine(context, cases, free), holds: [] });
  return more(holdFor(context, 'free-chlorine', judgement));
}

/** The target counts on more stabilizer than there is yet. */
function dissolves(cases: Cases, target: Target): boolean {
  return !target.edited && target.aim > chlorineTarget(spanIn(cases, 'cyanuricAcid').value).aim + 0.1;
}

/** A level above the everyday one, where the water asks for it; stabilizer waits until that is over. */
export function goalOf({ input, known, targets }: Context, cases: Cases): Goal | null {
  if (input.look.water === 'green') {
    const to = algaeLevel(spanIn(cases, 'cyanuricAcid').value);
    const dilute = spanIn(cases, 'cyanuricAcid').value > targets['cyanuric-acid'].high;
    return { kind: 'clear-algae', to, notes: ['hold-until-clear', ...(dilute ? (['dilution-helps'] as const) : [])] };
  }
  const combined = known['combined-chlorine'];
  if (!combined || judge(combined, targets['combined-chlorine']) !== 'high') return null;
  const wanted = Math.max(targets['free-chlorine'].aim, BREAKPOINT_FACTOR * combined.low);
  const capped: StepNote[] = wanted > CHLORINE_LIMIT ? ['oxidise-capped'] : [];
  return {
    kind: 'oxidise-combined',
    to: Math.min(CHLORINE_LIMIT, wanted),
    notes: ['oxidise-common-practice', ...capped, 'repeat-until-it-holds'],
  };
}

/** Combined chlorine needs both chlorines, and a difference larger than their doubts. */
function combinedHold({ known, targets }: Context): Drafted {
  const combined = known['combined-chlorine'];
  if (!combined) return NOTHING;
  const doubtful = judge(combined, targets['combined-chlorine']) === 'maybe-high';
  return doubtful && isMaybeCombined({ known, targets })
    ? holdWith('combined-chlorine', 'straddles', 'better-test')
    : NOTHING;
}

function raise(context: Context, cases: Cases, free: Known, goal: Goal): Draft[] {
  const run = chlorinatorRun(context, cases, free, goal, (milligrams, electrolyse) =>
    withinBand(cases, milligrams, electrolyse),
  );
  if (run) return [run];
  const choice = choose(context.input, productsFitting(context, cases, goal.to - free.high));
  const reagent = choice.product as ChlorineProduct;
  const perMmol = chlorinePerMmol(reagent);
  const milligrams = withinBand(cases, goal.to - free.high, (water, added) =>
    addToWater(water, moveOf(reagent), added / perMmol),
  );
  const mmolPerLitre = milligrams / perMmol;
  if (!isMeasurable(choice, mmolPerLitre * context.volume.low)) return [];
  const reached = free.high + milligrams;
  const isShort = reached < goal.to - MIN_SHORT;
  const brings: StepNote[] = isShort ? ['as-much-as-the-ph-bears'] : [];
  if (goal.kind === 'clear-algae' && reached > CHLORINE_LIMIT) brings.push('chlorine-above-swim-limit-for-now');
  if (reagent === 'dichlor') brings.push('adds-stabilizer');
  if (reagent === 'calcium-hypochlorite') brings.push('adds-calcium');
  return [
    doseDraft(context, {
      id: 'chlorine',
      kind: goal.kind,
      moves: ['free-chlorine', ...(goal.kind === 'oxidise-combined' ? (['total-chlorine'] as const) : [])],
      choice,
      mmolPerLitre,
      upToMmolPerLitre: (goal.to - free.low) / perMmol,
      parts: partsFor(milligrams, AT_A_TIME),
      notes: [...goal.notes, ...brings],
      cautions: levelCautions(context, reached),
      why: whyLines(free, goal.to, { reached, isShort, milligrams, mmolPerLitre }),
    }),
  ];
}

/** mg/L; less than this below the goal needs no explaining. */
const MIN_SHORT = 0.3;

/** The aim, and where the pH stops the way there: both stand beside the amount. */
function whyLines(
  free: Known,
  to: number,
  dose: { reached: number; isShort: boolean; milligrams: number; mmolPerLitre: number },
): ArithmeticLine[] {
  const [reading, aim, amount] = massLines('free-chlorine', free, to, dose.milligrams, dose.mmolPerLitre);
  const stop: ArithmeticLine = { line: 'as-the-ph-bears', reached: dose.reached, ph: SAFE_PH.high };
  return [reading!, aim!, ...(dose.isShort ? [stop] : []), amount!];
}

/** Hypochlorite lifts the pH until it is used up: in the likeliest water no further than the safe band. */
function withinBand(
  { likely: { water } }: Cases,
  milligrams: number,
  chlorinate: (water: Water, milligrams: number) => Water,
): number {
  const excess = (added: number) => chlorinate(water, added).ph - SAFE_PH.high;
  if (water.ph >= SAFE_PH.high) return milligrams;
  const all: Place = [milligrams, excess(milligrams)];
  return all[1] > 0 ? (bracketedRoot(excess, [0, excess(0)], all, 1e-3) ?? milligrams) : milligrams;
}

type ChlorineProduct = 'sodium-hypochlorite' | 'household-bleach' | 'calcium-hypochlorite' | 'dichlor';

/** mg/L of free chlorine from one mmol/L of what the product holds. */
export function chlorinePerMmol(id: ChlorineProduct | 'trichlor'): number {
  const reagent = id === 'household-bleach' ? 'sodium-hypochlorite' : id;
  return REAGENTS[reagent].brings.chlorine * CHLORINE_PER_MMOL;
}

function levelCautions({ input }: Context, to: number): CautionCode[] {
  if (to > CHLORINE_LIMIT) return ['chlorine-above-limit', 'back-in-range-first'];
  return to > labelLimit(input) ? ['label-chlorine-limit'] : [];
}

/** Liquid first; dry products only where the calcium or the stabilizer they bring is no harm. */
function productsFitting(
  { input, known, targets }: Context,
  cases: Cases,
  milligrams: number,
): [ProductId, ...ProductId[]] {
  const fitting: [ProductId, ...ProductId[]] = [...QUICK];
  const calcium = spanIn(cases, 'calciumHardness').value + (milligrams / (2 * CHLORINE_PER_MMOL)) * HARDNESS_PER_MMOL;
  if (calcium <= targets['calcium-hardness'].high) fitting.push('calcium-hypochlorite');
  const stabilizer = spanIn(cases, 'cyanuricAcid').high + milligrams * 0.92;
  const roomForStabilizer = known['cyanuric-acid'].from !== 'assumed' && stabilizer <= targets['cyanuric-acid'].high;
  if (input.pool.stabilised && roomForStabilizer) fitting.push('dichlor');
  return fitting;
}
