/** Which one test would narrow today's doses most: the plan made again as if it had been made, and compared. */
import { intervalFor, type TypedMethod } from '../../measurement/methods.ts';
import type { QuantityId } from '../../measurement/quantities.ts';
import { makePlan } from './make-plan.ts';
import type { SpannedReading } from './spanned.ts';
import type { Amount, StepKind } from './step.ts';
import type { Plan } from './types.ts';

export interface WorthTesting {
  readonly quantity: QuantityId;
  readonly method: TypedMethod;
  /** The dose that it would narrow. */
  readonly kind: StepKind;
  readonly form: Amount['form'];
  /** mL or g: from the amount that is dosed to what it may take in all, now and with that test. */
  readonly now: readonly [number, number];
  readonly then: readonly [number, number];
}

type Candidate = readonly [QuantityId, SpannedReading, TypedMethod];

/** What strips tell coarsely or not at all, and the test at hand in most places. */
const CANDIDATES: readonly Candidate[] = [
  ['total-alkalinity', 'totalAlkalinity', 'drops'],
  ['cyanuric-acid', 'cyanuricAcid', 'drops'],
  ['salt', 'salt', 'meter'],
  ['calcium-hardness', 'calciumHardness', 'drops'],
  ['temperature', 'temperatureC', 'meter'],
  ['ph', 'ph', 'meter'],
  ['free-chlorine', 'freeChlorine', 'drops'],
];

/** Of the most that a dose may take: a test that narrows it by less isn't worth the sentence. */
const WORTH_SHARE = 0.15;

/** @returns null where no test would narrow a dose by much */
export function worthTesting(plan: Plan): WorthTesting | null {
  let best: WorthTesting | null = null;
  let most = WORTH_SHARE;
  for (const candidate of CANDIDATES) {
    const narrower = planWith(plan, candidate);
    if (!narrower) continue;
    for (const { id, kind, amount } of plan.steps) {
      const then = narrower.steps.find((step) => step.id === id)?.amount;
      if (!amount || !then || amount.product !== then.product) continue;
      const share = (amount.upTo - amount.exact - (then.upTo - then.exact)) / amount.upTo;
      if (share <= most) continue;
      most = share;
      const [quantity, , method] = candidate;
      best = {
        quantity,
        method,
        kind,
        form: amount.form,
        now: [amount.exact, amount.upTo],
        then: [then.exact, then.upTo],
      };
    }
  }
  return best;
}

/** As if the test had found what is likeliest now; null where it would be no surer than what is known. */
function planWith({ input, now }: Plan, [quantity, spanned, method]: Candidate): Plan | null {
  const { value, low, high } = now.spans[spanned];
  const test = intervalFor(quantity, value, method);
  const narrow = { value, low: Math.max(low, test.low), high: Math.min(high, test.high), method };
  if (narrow.high - narrow.low > 0.8 * (high - low) || narrow.low > value || narrow.high < value) return null;
  const outcome = makePlan({ ...input, readings: { ...input.readings, [quantity]: narrow } });
  return outcome.ok ? outcome.plan : null;
}
