/**
 * pH between readings: doses move it through the same moves as in the plan, and carbon dioxide leaves towards balance
 * with the air, a share of the way each day.
 */
import { addReagent } from '../water/moves/add.ts';
import { aerationOf } from '../water/moves/aerate.ts';
import type { Change } from '../water/moves/reagents.ts';
import { WaterError } from '../water/errors.ts';
import type { Water } from '../water/water.ts';
import { Filter, gaussian } from './filter.ts';
import { follow, type Misfit, type OnState, type SeenAt, stateTeller } from './follow.ts';
import { methodsOf } from './look.ts';

export interface PhDose {
  readonly kind: 'added';
  readonly day: number;
  /** mol (alkalinity: equivalents) per litre of the pool. */
  readonly molesPerLitre: Change;
  readonly doubt: number;
}
export type PhEvent = SeenAt | PhDose;

/** The state: pH, and the logarithm of the share of the way to balance with air that carbon dioxide goes in a day. */
const [PH, SPEED, BIASES] = [0, 1, 2];

/** Common practice, no source: an open pool's pH takes one to three weeks to rise to its end. */
const SPEED_PER_DAY = { value: 0.08, doubt: 0.8 };
/** A day's random change, one standard deviation: swimmers, leaves, rain. Common practice, no source. */
const DAILY_DOUBT = 0.04;
/** What a move may have done where the readings contradict each other. */
const CONTRADICTORY = 0.2;
const STEP = 0.02;

export interface PhState {
  readonly mean: number;
  readonly variance: number;
  readonly misfits: readonly Misfit[];
}

/**
 * @param rest the other readings of the water
 * @returns null where nothing was read
 */
export function followPh(
  events: readonly PhEvent[],
  at: number,
  rest: Omit<Water, 'ph'>,
  sharedVariance: number,
  onState: OnState | null = null,
): PhState | null {
  const read = events.filter((event) => event.kind === 'read');
  if (read.length === 0) return null;
  const methods = methodsOf(read, BIASES);
  const biases = [...methods].map(() => 0);
  const filter = new Filter(
    gaussian([7.5, Math.log(SPEED_PER_DAY.value), ...biases], [0.5, SPEED_PER_DAY.doubt, ...biases.map(() => 1)]),
  );
  const aerated = aerationOf(rest);
  const misfits = follow<PhDose>(
    events,
    at,
    {
      filter,
      place: PH,
      methods,
      sharedVariance,
      pass: (from, to) => pass(filter, to - from, aerated),
      act: (dose) => put(filter, dose, rest),
    },
    stateTeller(filter, PH, onState),
  );
  return { mean: filter.state.mean[PH]!, variance: filter.varianceOf([PH, 1]), misfits };
}

function pass(filter: Filter, days: number, aerated: ReturnType<typeof aerationOf>): void {
  if (!(days > 0)) return;
  const after = (ph: number, logSpeed: number) => aerated(ph, -Math.expm1(-Math.exp(logSpeed) * days));
  const { mean } = filter.state;
  laidStraight(
    filter,
    (ph) => after(ph, mean[SPEED]!),
    (speed) => after(mean[PH]!, speed),
  );
  filter.disturb(PH, DAILY_DOUBT ** 2 * days);
}

function put(filter: Filter, { molesPerLitre, doubt }: PhDose, rest: Omit<Water, 'ph'>): void {
  const ph = filter.state.mean[PH]!;
  const reagent = { gramsPerMole: 1, brings: molesPerLitre };
  laidStraight(filter, (start) => addReagent({ ...rest, ph: start }, reagent, 1000).ph, null);
  filter.disturb(PH, (doubt * (filter.state.mean[PH]! - ph)) ** 2);
}

/** Moves the pH by a function of itself (and of the speed), straight around the estimate. */
function laidStraight(filter: Filter, ofPh: (ph: number) => number, ofSpeed: ((speed: number) => number) | null): void {
  const { mean } = filter.state;
  const [ph, speed] = [mean[PH]!, mean[SPEED]!];
  try {
    const next = ofPh(ph);
    const slope = (ofPh(ph + STEP) - next) / STEP;
    const bySpeed = ofSpeed ? (ofSpeed(speed + STEP) - next) / STEP : 0;
    filter.move(PH, [PH, slope, SPEED, bySpeed]);
    filter.shift(PH, next - filter.state.mean[PH]!);
  } catch (error) {
    // Readings that contradict each other say nothing of how the pH moves.
    if (!(error instanceof WaterError)) throw error;
    filter.disturb(PH, CONTRADICTORY ** 2);
  }
}
