/**
 * Alkalinity and pH, solved together so that the moves don't fight: each dose already counts what the others take or
 * bring, and what stabilizer and calcium will still do to the pH.
 */
import { ALKALINITY_PER_MMOL } from '../../water.ts';
import type { Cases } from '../cases.ts';
import { NOTHING, type Context, type Draft, type Drafted } from '../draft.ts';
import { holdFor, holdWith } from '../hold.ts';
import { predicted, spanIn } from '../predicted.ts';
import { judge } from '../span.ts';
import type { Judgement } from '../types.ts';
import { phAim } from './aims.ts';
import { airReaches, type Balance, type Besides } from './balance.ts';
import { airTo, lowerPhDraft } from './lower-ph.ts';
import { raiseAlkalinity } from './raise-alkalinity.ts';
import { raisePh } from './raise-ph.ts';

/** At and above this free chlorine the pads are bleached and pH can't be trusted (from memory, unverified), mg/L. */
export const BLEACHING = 10;
/** Acid for alkalinity goes no lower than people may swim in. */
const ROUND_FLOOR = 7;
/** pH above the lower end of its target that is left alone before much hypochlorite. Common practice, no source. */
const ROOM_AGAINST_ALGAE = 0.3;
/** pH that is worth acid for the index alone: as much as a test tells. Common practice, no source. */
const MIN_PH_DROP = 0.1;
/** Rounds of acid and air before a new test. */
const MAX_ROUNDS = 2;

export function balanceStep(context: Context, cases: Cases, { pending, chlorinated }: Besides): Drafted {
  const { known, targets } = context;
  const alkalinity = judgeKnown(
    known['total-alkalinity'].from,
    spanIn(cases, 'totalAlkalinity'),
    targets['total-alkalinity'],
  );
  const now = judgeKnown(known.ph.from, spanIn(cases, 'ph'), phBand(context));
  const ph = now === 'unknown' ? now : afterPending(context, cases, pending, now);
  const { value, high } = spanIn(cases, 'totalAlkalinity');
  const willBe = alkalinity === 'low' ? value + targets['total-alkalinity'].aim - high : value;
  const balance: Balance = { context, cases, pending, aim: phAim(context, pending(cases), willBe, chlorinated) };
  const holds = [
    ...(alkalinity === 'low' ? NOTHING : holdFor(context, 'total-alkalinity', alkalinity)).holds,
    ...holdFor(context, 'ph', judgeKnown(known.ph.from, spanIn(cases, 'ph'), targets.ph)).holds,
  ];
  if (isBleached(context)) {
    const held = holdWith('ph', 'strip-unreliable-at-high-chlorine', 'wait-for-chlorine').holds;
    return { drafts: [], holds: [...holds.filter(({ target }) => target !== 'ph'), ...held] };
  }
  const drafts = draftsFor(balance, alkalinity, ph, chlorinated);
  // What is dosed for its cautious end needs no other test first.
  const isDosed = drafts.some(({ kind }) => kind === 'lower-ph' || kind === 'raise-ph');
  const open = isDosed ? holds.filter(({ target }) => target !== 'ph') : holds;
  return { drafts: [...drafts, ...airInTheEnd(balance, drafts)], holds: open };
}

/** Against algae the hypochlorite to come lifts the pH, and works best where it is low: the band ends early. */
function phBand({ input, targets: { ph } }: Context): { low: number; high: number } {
  return input.look.water === 'green' ? { low: ph.low, high: ph.low + ROOM_AGAINST_ALGAE } : ph;
}

function draftsFor(
  balance: Balance,
  alkalinity: Judgement,
  ph: Judgement,
  chlorinated: Besides['chlorinated'],
): Draft[] {
  if (alkalinity === 'low') return raiseAlkalinity(balance, ph);
  if (ph === 'low') return raisePh(balance, alkalinity);
  if (ph === 'high') return lowerBoth(balance, alkalinity);
  if (!isPinned(ph)) return [];
  if (alkalinity === 'high' && isBeyondLimit(balance.context, balance.cases)) return rounds(balance);
  return isScaling(balance, chlorinated(balance.cases))
    ? lowerPhDraft(balance, balance.aim.ph, { notes: ['ph-for-the-index'] })
    : [];
}

/** Stabilizer is an acid: where it will take the pH too low, air brings it back while it dissolves. */
function airInTheEnd({ context, cases, pending, aim }: Balance, drafts: readonly Draft[]): Draft[] {
  if (context.known.ph.from === 'assumed' || pending(cases) === cases) return [];
  const end = pending(drafts.reduce((state, draft) => draft.apply(state), cases));
  if (spanIn(end, 'ph').value >= context.targets.ph.low || !airReaches(end, aim.ph)) return [];
  const air = airTo({ context, cases: end, pending: (state) => state, aim }, aim.ph, 'aerate-in-the-end');
  return air.map((one) => ({ ...one, last: true, notes: ['if-the-test-agrees', ...one.notes] }));
}

function judgeKnown(
  from: string,
  span: { low: number; high: number },
  target: { low: number; high: number },
): Judgement {
  return from === 'assumed' ? 'unknown' : judge(span, target);
}

/** A pH that the other additions will put right needs no dose of its own; one that they will upset is for the retest. */
function afterPending(context: Context, cases: Cases, pending: Balance['pending'], now: Judgement): Judgement {
  if (now !== 'high' && now !== 'low') return now;
  const then = judge(spanIn(pending(cases), 'ph'), phBand(context));
  return then === now ? now : 'in-range';
}

/** Known well enough to steer for the index: no end of it is below the target. */
function isPinned(ph: Judgement): boolean {
  return ph === 'in-range' || ph === 'maybe-high';
}

/** Certainly scaling, now or with the chlorine to come, though pH and alkalinity by themselves may be in range. */
function isScaling({ context, cases, aim }: Balance, chlorinated: Cases): boolean {
  const { known, targets } = context;
  if (known['calcium-hardness'].from === 'assumed' || known['total-alkalinity'].from === 'assumed') return false;
  return (
    predicted(chlorinated).saturationIndex.low > targets['saturation-index'].high &&
    cases.easyLow.water.ph > aim.ph + MIN_PH_DROP
  );
}

/** By the chlorine that was there when the strip was dipped. */
export function isBleached({ known: { 'free-chlorine': free } }: Context): boolean {
  return free.from === 'measured' && free.value >= BLEACHING;
}

function isBeyondLimit({ targets }: Context, cases: Cases): boolean {
  return spanIn(cases, 'totalAlkalinity').low > targets['total-alkalinity'].limit;
}

/** pH certainly high. The acid also lowers the alkalinity: welcome where that is high, made up for where it is not. */
function lowerBoth(balance: Balance, alkalinity: Judgement): Draft[] {
  const { context, cases } = balance;
  if (alkalinity === 'high') {
    return isBeyondLimit(context, cases)
      ? rounds(balance)
      : lowerPhDraft(balance, Math.min(balance.aim.ph, context.targets.ph.low));
  }
  const drafts = lowerPhDraft(balance, balance.aim.ph);
  const after = drafts.reduce((state, draft) => draft.apply(state), cases);
  const tooLow = spanIn(after, 'totalAlkalinity').value < context.targets['total-alkalinity'].low;
  if (!tooLow || context.known['total-alkalinity'].from === 'assumed') return drafts;
  return raiseAlkalinity(balance, 'high');
}

/** Alkalinity far too high: acid down to the floor, air back up, and again; then a new test. */
function rounds(balance: Balance): Draft[] {
  const { context } = balance;
  const target = context.targets['total-alkalinity'];
  const drafts: Draft[] = [];
  let { cases } = balance;
  for (let round = 1; round <= MAX_ROUNDS; round++) {
    const spare = (spanIn(cases, 'totalAlkalinity').low - target.aim) / ALKALINITY_PER_MMOL;
    if (spanIn(cases, 'totalAlkalinity').low <= target.high || spare <= 0) break;
    const acid = lowerPhDraft({ ...balance, cases }, ROUND_FLOOR, {
      id: `acid-round-${round}`,
      maxMmolPerLitre: spare,
      notes: ['alkalinity-follows-over-several-rounds'],
    });
    if (acid.length === 0) break;
    cases = acid.reduce((state, draft) => draft.apply(state), cases);
    const air = airTo({ ...balance, cases }, balance.aim.ph, `aerate-round-${round}`);
    drafts.push(...[...acid, ...air].map((draft) => ({ ...draft, round })));
    cases = air.reduce((state, draft) => draft.apply(state), cases);
  }
  return drafts;
}
