/** What moves the answer: an assumption from end to end, and a step at all. */
import { activeChlorine } from '../chlorine.ts';
import { USUAL_BORON_WHERE_USED } from './known.ts';
import type { Water } from '../water.ts';
import { indexOf } from './predicted.ts';
import type { TargetId } from '../targets.ts';
import type { Draft } from './draft.ts';
import type { StepKind } from './step.ts';
import type { Assumption, AssumptionCode, Hold } from './types.ts';

const READING: Partial<Record<AssumptionCode, keyof Water>> = {
  ph: 'ph',
  'total-alkalinity': 'totalAlkalinity',
  'calcium-hardness': 'calciumHardness',
  'calcium-from-total': 'calciumHardness',
  'cyanuric-acid': 'cyanuricAcid',
  salt: 'salt',
  boron: 'boron',
  temperature: 'temperatureC',
  'free-chlorine': 'freeChlorine',
};

/** @param water the likeliest one, with the assumption in it */
export function withEffect(assumption: Assumption, water: Water): Assumption {
  const reading = READING[assumption.code];
  if (!reading) return assumption;
  const ends = endsOf(assumption, water[reading]).map((value): Water => ({ ...water, [reading]: value }));
  const [low, high] = ends as [Water, Water];
  return {
    ...assumption,
    effect: {
      saturationIndex: [indexOf(low), indexOf(high)],
      activeChlorine: [activeChlorine(low).by1974, activeChlorine(high).by1974],
    },
  };
}

function endsOf({ code, span }: Assumption, value: number): [number, number] {
  if (code === 'boron') return [0, USUAL_BORON_WHERE_USED];
  // The span of a share: of the total hardness that the value was worked out from.
  if (code === 'calcium-from-total') return [(value / span.value) * span.low, (value / span.value) * span.high];
  return [span.low, span.high];
}

/** The least change that a test at the pool can tell. Common practice, no source. */
const MIN_CHANGE: Partial<Record<keyof Water, number>> = {
  ph: 0.04,
  totalAlkalinity: 2,
  calciumHardness: 5,
  salt: 50,
  cyanuricAcid: 2,
  freeChlorine: 0.1,
  combinedChlorine: 0.1,
  boron: 2,
};

/** Whether a step shows in any reading; what has no dose (cleaning, waiting, looking) always counts. */
export function movesSomething({ kind }: Draft, before: Water, after: Water): boolean {
  if (kind === 'clean' || kind === 'wait-for-chlorine' || kind === 'look-for-scale') return true;
  return (Object.entries(MIN_CHANGE) as [keyof Water, number][]).some(
    ([reading, least]) => Math.abs(after[reading] - before[reading]) >= least,
  );
}

/** What the steps left out were meant for. */
export function tooLittle(all: readonly Draft[], kept: readonly Draft[]): Hold[] {
  const left = all.filter((one) => !kept.includes(one)).map(({ kind }) => MEANT_FOR[kind]);
  const targets = [...new Set(left)].filter((target) => target !== undefined);
  return targets.map((target) => ({ target, reason: 'too-little-to-tell', remedy: 'repeat-test' }));
}

const MEANT_FOR: Partial<Record<StepKind, TargetId>> = {
  'raise-alkalinity': 'total-alkalinity',
  'lower-ph': 'ph',
  'raise-ph': 'ph',
  aerate: 'ph',
  'raise-hardness': 'calcium-hardness',
  'raise-salt': 'salt',
  'raise-stabilizer': 'cyanuric-acid',
  'raise-chlorine': 'free-chlorine',
};
