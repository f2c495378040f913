/** What the readings are once some of the steps have been done, each with the amount that really went in. */
import type { PlanInput } from '../../pool/schema.ts';
import { replaceWater } from '../moves/dilute.ts';
import { moveOf } from '../products.ts';
import { addTo, casesOf, mapCases, type Cases } from './cases.ts';
import { perUnitOf } from './choose.ts';
import { knownWater } from './known.ts';
import { volumeSpan } from './make-plan.ts';
import { spanIn } from './predicted.ts';
import type { Span, SpannedReading } from './spanned.ts';
import type { Step } from './step.ts';
import { fillFor } from './steps/replace-water.ts';

type Readings = PlanInput['readings'];

export interface DoneAmount {
  readonly step: Pick<Step, 'choice' | 'replace'>;
  /** mL, g, or L of water. */
  readonly amount: number;
}

const SPANNED = {
  'free-chlorine': 'freeChlorine',
  ph: 'ph',
  'total-alkalinity': 'totalAlkalinity',
  'calcium-hardness': 'calciumHardness',
  'cyanuric-acid': 'cyanuricAcid',
  salt: 'salt',
  boron: 'boron',
  temperature: 'temperatureC',
} as const satisfies Partial<Record<keyof Readings, SpannedReading>>;

/** @throws WaterError where the readings are those of no water */
export function readingsAfter(input: PlanInput, done: readonly DoneAmount[]): Readings {
  const before = casesOf(knownWater(input).known, volumeSpan(input));
  const after = done.reduce((cases, one) => withDose(cases, input, one), before);
  const measured = Object.entries(input.readings) as [keyof Readings, Reading][];
  return Object.fromEntries(
    measured.map(([id, reading]) => [id, { ...restOf(reading), ...movedSpan(id, reading, before, after) }]),
  );
}

function withDose(cases: Cases, input: PlanInput, { step, amount }: DoneAmount): Cases {
  if (step.replace) {
    const share = Math.min(0.95, amount / input.pool.volumeLitres);
    return mapCases(cases, (one) => replaceWater(one.water, fillFor(input.fill, one, cases), share));
  }
  return step.choice ? addTo(cases, moveOf(step.choice.product), amount * perUnitOf(step.choice)) : cases;
}

type Reading = NonNullable<Readings[keyof Readings]>;

/** What stays true of it: it was measured before, and a second stretch of the scale lies within its span now. */
function restOf({ scale, openAbove, openBelow }: Reading): Partial<Reading> {
  return { ...(scale && { scale }), ...(openAbove && { openAbove }), ...(openBelow && { openBelow }) };
}

function movedSpan(id: keyof Readings, reading: Reading, before: Cases, after: Cases): Span {
  if (id === 'total-hardness')
    return shifted(reading, spanIn(before, 'calciumHardness'), spanIn(after, 'calciumHardness'));
  if (id === 'total-chlorine') {
    const [free, combined] = [spanIn(after, 'freeChlorine'), spanIn(after, 'combinedChlorine')];
    return { value: free.value + combined.value, low: free.low + combined.low, high: free.high + combined.high };
  }
  return spanIn(after, SPANNED[id]);
}

/** Of which the plan only follows a share: it moves by what that moves. */
function shifted({ value, low = value, high = value }: Reading, from: Span, to: Span): Span {
  const change = to.value - from.value;
  return { value: Math.max(0, value + change), low: Math.max(0, low + change), high: Math.max(0, high + change) };
}
