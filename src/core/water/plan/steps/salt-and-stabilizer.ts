/** Salt for the chlorinator, stabilizer against the sun: both only ever added short of the aim. */
import { REAGENTS } from '../../moves/reagents.ts';
import { MOLAR_MASS } from '../../constants.ts';
import { choose } from '../choose.ts';
import { isMeasurable, massLines } from '../dose.ts';
import { doseDraft, NOTHING, partsFor, type Context, type Drafted } from '../draft.ts';
import { spanIn } from '../predicted.ts';
import type { Cases } from '../cases.ts';
import { holdFor, holdWith } from '../hold.ts';
import { judge, knownAs } from '../span.ts';

/** mg/L of stabilizer put in at a time, at most. Common practice, no source: it can't be taken out again. */
const STABILIZER_AT_A_TIME = 50;

export function saltStep(context: Context, cases: Cases): Drafted {
  const { input, known, targets } = context;
  if (input.pool.chlorination !== 'chlorinator') return NOTHING;
  const span = knownAs(known.salt, spanIn(cases, 'salt'));
  const judgement = judge(span, targets.salt);
  if (judgement !== 'low' || known.salt.from === 'assumed') return holdFor(context, 'salt', judgement);
  const choice = choose(input, ['salt']);
  const milligrams = targets.salt.aim - span.high;
  const mmolPerLitre = milligrams / MOLAR_MASS.NaCl;
  const draft = doseDraft(context, {
    id: 'salt',
    kind: 'raise-salt',
    moves: ['salt'],
    choice,
    mmolPerLitre,
    upToMmolPerLitre: (targets.salt.aim - span.low) / MOLAR_MASS.NaCl,
    notes: ['chlorinator-off-until-salt-dissolved'],
    why: massLines('salt', span, targets.salt.aim, milligrams, mmolPerLitre),
  });
  return isMeasurable(choice, mmolPerLitre * context.volume.low) ? { drafts: [draft], holds: [] } : NOTHING;
}

/** @param isFighting chlorine is being kept high: stabilizer would only weaken it */
export function stabilizerStep(context: Context, cases: Cases, isFighting: boolean): Drafted {
  const { input, known, targets } = context;
  if (!input.pool.stabilised || input.pool.kind === 'spa') return NOTHING;
  // Trichlor and dichlor bring it along.
  if (input.pool.chlorination === 'trichlor' || input.pool.chlorination === 'dichlor') return NOTHING;
  const span = knownAs(known['cyanuric-acid'], spanIn(cases, 'cyanuricAcid'));
  const target = targets['cyanuric-acid'];
  const judgement = judge(span, target);
  if (judgement !== 'low' || known['cyanuric-acid'].from === 'assumed') {
    return holdFor(context, 'cyanuric-acid', judgement);
  }
  if (isFighting) return holdWith('cyanuric-acid', 'after-the-fight', 'once-chlorine-holds');
  const choice = choose(input, ['cyanuric-acid']);
  const milligrams = target.aim - span.high;
  const perMmol = REAGENTS['cyanuric-acid'].gramsPerMole;
  const draft = doseDraft(context, {
    id: 'stabilizer',
    kind: 'raise-stabilizer',
    moves: ['cyanuric-acid', 'ph'],
    choice,
    mmolPerLitre: milligrams / perMmol,
    upToMmolPerLitre: (target.aim - span.low) / perMmol,
    parts: partsFor(milligrams, STABILIZER_AT_A_TIME),
    notes: [
      'stabilizer-takes-days-to-show',
      'no-backwash-while-it-dissolves',
      'stabilizer-lowers-ph',
      ...(isPhHigh(context) ? (['stabilizer-instead-of-acid'] as const) : []),
    ],
    why: massLines('cyanuric-acid', span, target.aim, milligrams, milligrams / perMmol),
  });
  return isMeasurable(choice, (milligrams / perMmol) * context.volume.low) ? { drafts: [draft], holds: [] } : NOTHING;
}

function isPhHigh({ known: { ph }, targets }: Context): boolean {
  return ph.from !== 'assumed' && judge(ph, targets.ph) === 'high';
}
