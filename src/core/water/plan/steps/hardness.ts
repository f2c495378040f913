/** Calcium: for plaster and grout, which water low in calcium dissolves. */
import { HARDNESS_PER_MMOL } from '../../water.ts';
import { addTo, type Cases } from '../cases.ts';
import { choose } from '../choose.ts';
import { isMeasurable, massLines } from '../dose.ts';
import { doseDraft, NOTHING, partsFor, type Context, type Drafted } from '../draft.ts';
import { holdFor, holdWith } from '../hold.ts';
import { predicted, spanIn } from '../predicted.ts';
import { judge, knownAs } from '../span.ts';

/** mg/L at a time, at most. Common practice, no source: more at once clouds the water. */
const AT_A_TIME = 100;

/**
 * @param isFighting chlorine is being kept high, and lifts the pH: calcium waits
 * @param dissolved the water once the stabilizer to come, which is an acid, has dissolved
 */
export function hardnessStep(context: Context, cases: Cases, dissolved: Cases, isFighting: boolean): Drafted {
  const { input, known, targets } = context;
  const span = knownAs(known['calcium-hardness'], spanIn(cases, 'calciumHardness'));
  const target = targets['calcium-hardness'];
  const judgement = judge(span, target);
  if (judgement !== 'low' || span.from === 'assumed') return holdFor(context, 'calcium-hardness', judgement);
  if (isFighting) return holdWith('calcium-hardness', 'after-the-fight', 'once-chlorine-holds');
  const choice = choose(input, ['calcium-chloride']);
  const milligrams = target.aim - span.high;
  const mmolPerLitre = milligrams / HARDNESS_PER_MMOL;
  if (!isMeasurable(choice, mmolPerLitre * context.volume.low)) return NOTHING;
  const scalesNow = wouldScale(context, cases, mmolPerLitre);
  if (scalesNow && wouldScale(context, dissolved, mmolPerLitre))
    return holdWith('calcium-hardness', 'index-first', 'plan-again');
  const isOptional = input.pool.surface === 'vinyl' || input.pool.surface === 'fibreglass';
  const draft = doseDraft(context, {
    id: 'calcium',
    kind: 'raise-hardness',
    moves: ['calcium-hardness', 'ph'],
    choice,
    mmolPerLitre,
    upToMmolPerLitre: (target.aim - span.low) / HARDNESS_PER_MMOL,
    parts: partsFor(milligrams, AT_A_TIME),
    notes: [...(isOptional ? (['optional-without-plaster'] as const) : []), 'clouding-clears'],
    why: massLines('calcium-hardness', span, target.aim, milligrams, mmolPerLitre),
  });
  return { drafts: [scalesNow ? { ...draft, afterStabilizer: true } : draft], holds: [] };
}

/** Into a water whose index it would take out of its span: what lowers the index comes first. */
function wouldScale({ targets, volume }: Context, cases: Cases, mmolPerLitre: number): boolean {
  const after = predicted(addTo(cases, 'calcium-chloride', mmolPerLitre * volume.low)).saturationIndex;
  return after.value > targets['saturation-index'].high;
}
