/**
 * Alkalinity certainly low. Bicarbonate alone where the pH then needs nothing; with the acid counted in where it will;
 * soda ash, alone or beside it, where the pH is low too.
 */
import { ALKALINITY_PER_MMOL } from '../../water.ts';
import { addTo } from '../cases.ts';
import { choose } from '../choose.ts';
import { isMeasurable } from '../dose.ts';
import { doseDraft, partsFor, type Draft } from '../draft.ts';
import { spanIn, withinIndex } from '../predicted.ts';
import { judge, knownAs } from '../span.ts';
import type { ArithmeticLine } from '../step.ts';
import type { Judgement } from '../types.ts';
import type { Balance } from './balance.ts';
import { acidsFor, minAcid, lowerPhDraft } from './lower-ph.ts';
import { sodaAshDraft, sodaAshTo } from './raise-ph.ts';

/** mg/L of alkalinity at a time, at most. Common practice, no source: more at once clouds the water. */
const AT_A_TIME = 60;
/** mmol/L; less than this below the need needs no explaining. */
const MIN_SHORT = 0.02;
/** Acid and bicarbonate depend on each other weakly: this many rounds settle it to a thousandth. */
const SETTLING = 4;

/** @param ph where the pH lies before; 'unknown' leaves it alone */
export function raiseAlkalinity(balance: Balance, ph: Judgement): Draft[] {
  const { context, cases, pending } = balance;
  const need = needed(balance);
  if (ph === 'unknown') return bicarbonate(balance, need);
  const raised = addTo(cases, 'sodium-bicarbonate', Math.max(0, need) * context.volume.low);
  const { ph: target } = context.targets;
  if (ph === 'high' || judge(spanIn(pending(raised), 'ph'), target) === 'high') return withAcid(balance, need);
  if (ph === 'low' && raised.likely.water.ph < target.low) return withSodaAsh(balance, need);
  return bicarbonate(balance, need);
}

/** mmol/L from the high end of the reading to the aim; negative where that end lies above it. */
function needed({ context, cases }: Balance): number {
  const { aim } = context.targets['total-alkalinity'];
  return (aim - spanIn(cases, 'totalAlkalinity').high) / ALKALINITY_PER_MMOL;
}

/** mmol/L from the high end of the reading to the end of its target: a pH that is still low may take that much. */
function room({ context, cases }: Balance): number {
  const { high } = context.targets['total-alkalinity'];
  return (high - spanIn(cases, 'totalAlkalinity').high) / ALKALINITY_PER_MMOL;
}

function withAcid(balance: Balance, need: number): Draft[] {
  const { context, cases, pending, aim } = balance;
  const acid =
    choose(context.input, acidsFor(context.input)).product === 'sodium-bisulfate'
      ? 'sodium-bisulfate'
      : 'hydrochloric-acid';
  const ready = pending(cases);
  let taken = 0;
  for (let i = 0; i < SETTLING; i++) {
    const raised = addTo(ready, 'sodium-bicarbonate', Math.max(0, need + taken) * context.volume.low);
    taken = minAcid(raised, acid, aim.ph);
  }
  const first = bicarbonate(balance, Math.max(0, need + taken), { line: 'for-the-acid-to-come', mmolPerLitre: taken });
  const raised = first.reduce((state, draft) => draft.apply(state), cases);
  const lowered = lowerPhDraft({ ...balance, cases: raised }, aim.ph);
  // Without acid to follow, nothing would bring the index back.
  return lowered.length > 0 ? [...first, ...lowered] : bicarbonate(balance, need);
}

function withSodaAsh(balance: Balance, need: number): Draft[] {
  const { context, cases, aim } = balance;
  const alone = sodaAshTo(cases, aim.ph);
  if (2 * alone >= need) return sodaAshDraft(balance, Math.min(alone, room(balance) / 2));
  let soda = alone;
  for (let i = 0; i < SETTLING; i++) {
    const raised = addTo(cases, 'sodium-bicarbonate', (need - 2 * soda) * context.volume.low);
    soda = Math.min(need / 2, (soda + sodaAshTo(raised, aim.ph)) / 2);
  }
  const first = bicarbonate(balance, need - 2 * soda, { line: 'from-the-soda-ash-to-come', mmolPerLitre: 2 * soda });
  const raised = first.reduce((state, draft) => draft.apply(state), cases);
  const still = Math.min(soda, sodaAshTo(raised, aim.ph));
  return [...first, ...sodaAshDraft({ ...balance, cases: raised }, still)];
}

/** @param besides what else the dose counts with: acid to come takes the index down again */
function bicarbonate(balance: Balance, wanted: number, ...besides: ArithmeticLine[]): Draft[] {
  const { context, cases } = balance;
  const choice = choose(context.input, ['sodium-bicarbonate']);
  const { high } = context.targets['saturation-index'];
  const bears = withinIndex(cases, wanted, high, (dose) =>
    addTo(cases, 'sodium-bicarbonate', dose * context.volume.low),
  );
  const mmolPerLitre = besides.length > 0 ? wanted : bears;
  const isShort = mmolPerLitre < wanted - MIN_SHORT;
  if (!isMeasurable(choice, mmolPerLitre * context.volume.low)) return [];
  const span = spanIn(cases, 'totalAlkalinity');
  const target = context.targets['total-alkalinity'];
  const rise = target.aim - span.high;
  const known = knownAs(context.known['total-alkalinity'], span);
  return [
    doseDraft(context, {
      id: 'bicarbonate',
      kind: 'raise-alkalinity',
      moves: ['total-alkalinity', 'ph'],
      choice,
      mmolPerLitre,
      upToMmolPerLitre: mmolPerLitre + (span.high - span.low) / ALKALINITY_PER_MMOL,
      parts: partsFor(mmolPerLitre * ALKALINITY_PER_MMOL, AT_A_TIME),
      why: [
        { line: 'reading', reading: 'total-alkalinity', known, used: span.high },
        { line: 'aim', target: 'total-alkalinity', value: target.aim },
        ...(isShort
          ? ([
              { line: 'as-the-index-bears', index: high },
              { line: 'by-mass', mgPerLitre: mmolPerLitre * ALKALINITY_PER_MMOL, mmolPerLitre },
            ] as const)
          : ([{ line: 'by-mass', mgPerLitre: rise, mmolPerLitre: rise / ALKALINITY_PER_MMOL }] as const)),
        ...besides,
      ],
    }),
  ];
}
