/** What an assumption does to the answer: the index and the active chlorine at either end of what was assumed. */
import { activeChlorine } from '../chlorine.ts';
import { USUAL_BORON_WHERE_USED } from './known.ts';
import type { Water } from '../water.ts';
import { indexOf } from './predicted.ts';
import type { Assumption, AssumptionCode } from './types.ts';

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
