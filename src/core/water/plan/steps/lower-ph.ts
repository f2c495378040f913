/** Acid for the easiest water the readings allow: no water they allow ends below the aim. And air, for the way back up. */
import { reagentToPh } from '../../demand.ts';
import type { PlanInput } from '../../../pool/schema.ts';
import type { ProductId } from '../../products.ts';
import { ALKALINITY_PER_MMOL } from '../../water.ts';
import { mapCases, type Cases } from '../cases.ts';
import { choose } from '../choose.ts';
import { isMeasurable } from '../dose.ts';
import { doseDraft, partsFor, type Context, type Draft } from '../draft.ts';
import { spanIn, withinIndex } from '../predicted.ts';
import { knownAs } from '../span.ts';
import type { ArithmeticLine, StepNote } from '../step.ts';
import { phInAir, type Balance } from './balance.ts';

/** pH and alkalinity moved at a time, at most. Common practice, no source. */
const PH_AT_A_TIME = 0.8;
const ALKALINITY_AT_A_TIME = 40;

/** The sulfate of dry acid is no harm only where neither salt cell nor plaster is: there the price may decide. */
export function acidsFor({ pool, shelf }: PlanInput): readonly [ProductId, ...ProductId[]] {
  const isAttacked = pool.chlorination === 'chlorinator' || pool.surface === 'plaster' || pool.surface === 'tile';
  const hasLiquid = shelf.some((one) => one.product === 'hydrochloric-acid');
  return isAttacked && hasLiquid ? ['hydrochloric-acid'] : ['hydrochloric-acid', 'sodium-bisulfate'];
}
type Acid = 'hydrochloric-acid' | 'sodium-bisulfate';

interface AcidOptions {
  readonly id?: string;
  /** No more than this, for the sake of the alkalinity. */
  readonly maxMmolPerLitre?: number;
  readonly notes?: readonly StepNote[];
}

/** @returns one step, or none where the dose is too small to measure */
export function lowerPhDraft(balance: Balance, toPh: number, options: AcidOptions = {}): Draft[] {
  const { context, cases, pending, aim } = balance;
  const choice = choose(context.input, acidsFor(context.input));
  const acid = choice.product as Acid;
  const ready = pending(cases);
  const demand = minAcid(ready, acid, toPh);
  const mmolPerLitre = Math.min(demand, options.maxMmolPerLitre ?? Infinity);
  if (!isMeasurable(choice, mmolPerLitre * context.volume.low)) return [];
  const upToMmolPerLitre = Math.max(mmolPerLitre, acidTo(ready.hardHigh, acid, toPh));
  const before = spanIn(cases, 'ph').value;
  const draft = (parts: number) =>
    doseDraft(context, {
      id: options.id ?? 'acid',
      kind: 'lower-ph',
      moves: ['ph', 'total-alkalinity'],
      choice,
      mmolPerLitre,
      upToMmolPerLitre,
      parts,
      notes: options.notes ?? (aim.forIndex && toPh === aim.ph ? ['ph-for-the-index'] : []),
      why: [
        ...startLines(context, cases, 'low'),
        { line: 'aim', target: 'ph', value: toPh },
        { line: 'by-equilibrium', mmolPerLitre },
      ],
    });
  const fall = before - spanIn(draft(1).apply(cases), 'ph').value;
  const parts = Math.max(
    partsFor(fall, PH_AT_A_TIME),
    partsFor(mmolPerLitre * ALKALINITY_PER_MMOL, ALKALINITY_AT_A_TIME),
  );
  return [draft(parts)];
}

/** pH and alkalinity as the steps before leave them, and the ends that the dose is worked out for. */
export function startLines({ known }: Context, cases: Cases, phEnd: 'low' | 'high'): ArithmeticLine[] {
  const ph = knownAs(known.ph, spanIn(cases, 'ph'));
  const alkalinity = knownAs(known['total-alkalinity'], spanIn(cases, 'totalAlkalinity'));
  return [
    { line: 'reading', reading: 'ph', known: ph, used: ph[phEnd] },
    { line: 'reading', reading: 'total-alkalinity', known: alkalinity, used: alkalinity.low },
  ];
}

/** The two low ends of the pH: which of them needs less depends on what was added before. */
export function minAcid({ easyLow, hardLow }: Cases, acid: Acid, toPh: number): number {
  return Math.min(acidTo(easyLow, acid, toPh), acidTo(hardLow, acid, toPh));
}

/** mmol/L to a pH; 0 where the water is already there. */
function acidTo({ water }: Cases['likely'], acid: Acid, toPh: number): number {
  return water.ph > toPh ? reagentToPh(water, acid, toPh) : 0;
}

/**
 * Air until the pH is there: CO2 leaves, alkalinity stays. The owner stops at the reading, so every case ends at the
 * aim that air can bring there.
 */
export function aerateDraft(toPh: number, id = 'aerate'): Draft {
  return {
    id,
    kind: 'aerate',
    moves: ['ph'],
    apply: (cases) =>
      mapCases(cases, ({ water }) =>
        water.ph >= toPh ? water : { ...water, ph: Math.max(water.ph, Math.min(toPh, phInAir(water))) },
      ),
    parts: 1,
    toPh,
    how: null,
    circulateMinutes: 8 * 60,
    notes: ['points-returns-up-or-fountain', 'slow-hours-to-days'],
    cautions: [],
    why: [{ line: 'aim', target: 'ph', value: toPh }],
  };
}

/** Less isn't worth a step. */
const MIN_RISE = 0.04;
/** Below it people come before scale: the same as the limit for swimming. */
const FOR_PEOPLE = 7;

/**
 * Air towards a pH, less what is still to be added will lift it, and no further than the water bears without scaling,
 * though always to where people may swim.
 */
export function airTo({ context, pending, cases }: Balance, toPh: number, id?: string): Draft[] {
  const from = cases.likely.water.ph;
  const at = (rise: number) => aerateDraft(from + rise, id);
  const aired = at(toPh - from).apply(cases);
  const lift = Math.max(0, pending(aired).likely.water.ph - aired.likely.water.ph);
  const wanted = Math.max(0, toPh - lift - from);
  const { high } = context.targets['saturation-index'];
  const bears = withinIndex(cases, wanted, high, (rise) => at(rise).apply(cases));
  const rise = Math.max(bears, Math.min(wanted, FOR_PEOPLE - from));
  return rise < MIN_RISE ? [] : [at(rise)];
}
