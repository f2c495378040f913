/** Calcium: for plaster and grout, and to keep hungry water from looking for it elsewhere. */
import { HARDNESS_PER_MMOL } from '../../water.ts';
import type { Cases } from '../cases.ts';
import { choose } from '../choose.ts';
import { isMeasurable, massLines } from '../dose.ts';
import { doseDraft, NOTHING, partsFor, type Context, type Drafted } from '../draft.ts';
import { holdFor } from '../hold.ts';
import { spanIn } from '../predicted.ts';
import { judge, knownAs } from '../span.ts';

/** mg/L at a time, at most. Common practice, no source: more at once clouds the water. */
const AT_A_TIME = 100;

export function hardnessStep(context: Context, cases: Cases): Drafted {
  const { input, known, targets } = context;
  const span = knownAs(known['calcium-hardness'], spanIn(cases, 'calciumHardness'));
  const target = targets['calcium-hardness'];
  const judgement = judge(span, target);
  if (judgement !== 'low' || span.from === 'assumed') return holdFor(context, 'calcium-hardness', judgement);
  const choice = choose(input, ['calcium-chloride']);
  const milligrams = target.aim - span.high;
  const mmolPerLitre = milligrams / HARDNESS_PER_MMOL;
  if (!isMeasurable(choice, mmolPerLitre * context.volume.low)) return NOTHING;
  const draft = doseDraft(context, {
    id: 'calcium',
    kind: 'raise-hardness',
    moves: ['calcium-hardness', 'ph'],
    choice,
    mmolPerLitre,
    upToMmolPerLitre: (target.aim - span.low) / HARDNESS_PER_MMOL,
    parts: partsFor(milligrams, AT_A_TIME),
    notes: ['clouding-clears'],
    why: massLines('calcium-hardness', span, target.aim, milligrams, mmolPerLitre),
  });
  return { drafts: [draft], holds: [] };
}
