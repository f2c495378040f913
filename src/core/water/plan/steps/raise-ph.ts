/** pH certainly low while the alkalinity isn't: the base that brings least alkalinity, or only air. */
import { reagentToPh } from '../../demand.ts';
import { REAGENTS } from '../../moves/reagents.ts';
import { ALKALINITY_PER_MMOL } from '../../water.ts';
import type { Cases, WaterCase } from '../cases.ts';
import { choose, onShelf } from '../choose.ts';
import { isMeasurable } from '../dose.ts';
import { doseDraft, partsFor, type Draft } from '../draft.ts';
import { spanIn } from '../predicted.ts';
import type { Judgement } from '../types.ts';
import { airReaches, type Balance } from './balance.ts';
import { airTo, startLines } from './lower-ph.ts';

/** pH raised at a time, at most. Common practice, no source. */
const PH_AT_A_TIME = 0.8;

type Base = 'soda-ash' | 'borax';

export function raisePh(balance: Balance, alkalinity: Judgement): Draft[] {
  const { context, cases, aim } = balance;
  const target = context.targets['total-alkalinity'];
  if (alkalinity === 'unknown') return baseThenAir(balance, aim.ph);
  const bases: readonly Base[] = onShelf(context.input, 'borax') ? ['soda-ash', 'borax'] : ['soda-ash'];
  // Which way is taken follows from the likeliest water: by the cautious dose, more doubt would choose the base.
  const { water } = cases.likely;
  const fitting = bases.find((base) => {
    const rise = REAGENTS[base].brings.alkalinity * baseTo(cases.likely, base, aim.ph) * ALKALINITY_PER_MMOL;
    return alkalinity !== 'high' && water.totalAlkalinity + rise <= target.high;
  });
  if (fitting) return baseDraft(balance, fitting, minBase(cases, fitting, aim.ph));
  // Acid water eats the copper of a heater: that can't wait for air, only not be overdone.
  if (mustNotWait(balance)) return baseThenAir(balance, context.targets.ph.low);
  if (airReaches(cases, aim.ph)) return airTo(balance, aim.ph);
  return baseThenAir(balance, aim.ph);
}

/** As much soda ash as the alkalinity has room for; air does the rest where it can. */
function baseThenAir(balance: Balance, toPh: number): Draft[] {
  const { context, cases } = balance;
  const room = context.targets['total-alkalinity'].limit - spanIn(cases, 'totalAlkalinity').high;
  const most = Math.max(0, room) / (REAGENTS['soda-ash'].brings.alkalinity * ALKALINITY_PER_MMOL);
  const wanted = minBase(cases, 'soda-ash', toPh);
  const base = baseDraft(balance, 'soda-ash', Math.min(wanted, most));
  const after = base.reduce((state, draft) => draft.apply(state), cases);
  return wanted > most && airReaches(after, toPh) ? [...base, ...airTo({ ...balance, cases: after }, toPh)] : base;
}

/** Below 7.0, with copper in the heater. Common practice, no source. */
function mustNotWait({ context: { input }, cases }: Balance): boolean {
  return input.pool.heater === 'copper' && spanIn(cases, 'ph').value < 7;
}

/** mmol/L of soda ash to a pH; 0 where the water is already there. */
export function sodaAshTo(cases: Cases, toPh: number): number {
  return minBase(cases, 'soda-ash', toPh);
}

/** The two high ends of the pH: which of them needs less depends on what was added before. */
function minBase({ easyHigh, hardHigh }: Cases, base: Base, toPh: number): number {
  return Math.min(baseTo(easyHigh, base, toPh), baseTo(hardHigh, base, toPh));
}

function baseTo({ water }: WaterCase, base: Base, toPh: number): number {
  return water.ph < toPh ? reagentToPh(water, base, toPh) : 0;
}

export function sodaAshDraft(balance: Balance, mmolPerLitre: number): Draft[] {
  return baseDraft(balance, 'soda-ash', mmolPerLitre);
}

/** For the water that a base moves most: high end of the pH, least buffered. */
function baseDraft(balance: Balance, base: Base, mmolPerLitre: number): Draft[] {
  const { context, cases, aim } = balance;
  const choice = choose(context.input, [base]);
  if (!isMeasurable(choice, mmolPerLitre * context.volume.low)) return [];
  const draft = (parts: number) =>
    doseDraft(context, {
      id: base,
      kind: 'raise-ph',
      moves: ['ph', 'total-alkalinity'],
      choice,
      mmolPerLitre,
      upToMmolPerLitre: Math.max(mmolPerLitre, baseTo(cases.hardLow, base, aim.ph)),
      parts,
      notes: [...(aim.forIndex ? (['ph-for-the-index'] as const) : []), 'clouding-clears'],
      why: [
        ...startLines(context, cases, 'high'),
        { line: 'aim', target: 'ph', value: aim.ph },
        { line: 'by-equilibrium', mmolPerLitre },
      ],
    });
  const rise = spanIn(draft(1).apply(cases), 'ph').value - spanIn(cases, 'ph').value;
  return [draft(partsFor(rise, PH_AT_A_TIME))];
}
