/**
 * Free chlorine between readings: what the chlorinator makes and what is poured in, less a share of what is there each
 * day (sunlight and dirt act on it in proportion: Nowell & Hoigné, Water Research 26, 1992, 593-598, for sunlight).
 */
import { Filter, gaussian } from './filter.ts';
import { follow, type Misfit, type OnState, type SeenAt, stateTeller } from './follow.ts';
import { methodsOf } from './look.ts';

export type ChlorineAction =
  | { readonly kind: 'added'; readonly day: number; readonly mgPerLitre: number; readonly doubt: number }
  /** Chlorine or its remover went in, nobody knows how much. */
  | { readonly kind: 'unknown'; readonly day: number };
export type ChlorineEvent = SeenAt | ChlorineAction;

export interface ChlorineHabits {
  /** mg/L a day from the chlorinator; null where one may run that nobody has told of. */
  readonly madePerDay: number | null;
  /** Share lost in a day, and one standard deviation of its logarithm. */
  readonly lossPerDay: number;
  readonly lossDoubt: number;
}

/** The state: mg/L there, logarithm of the share lost in a day, mg/L made in a day. */
const [THERE, LOSS, MADE, BIASES] = [0, 1, 2, 3];

/** Common practice, no source: a day of much sun or many swimmers takes half as much again. */
const DAILY_DOUBT = 0.4;
/** mg/L, one standard deviation, of what nobody wrote the amount of. */
const UNKNOWN_CHANGE = 3;

export interface ChlorineState {
  readonly mean: number;
  readonly variance: number;
  /** mg/L a day, at what is there now. */
  readonly use: { readonly mean: number; readonly variance: number };
  readonly misfits: readonly Misfit[];
}

/** @returns null where nothing was read */
export function followChlorine(
  events: readonly ChlorineEvent[],
  at: number,
  habits: ChlorineHabits,
  sharedVariance: number,
  onState: OnState | null = null,
): ChlorineState | null {
  const read = events.filter((event) => event.kind === 'read');
  if (read.length === 0) return null;
  const methods = methodsOf(read, BIASES);
  const made = habits.madePerDay;
  const biases = [...methods].map(() => 0);
  const filter = new Filter(
    gaussian(
      [2, Math.log(habits.lossPerDay), made ?? 1, ...biases],
      [3, habits.lossDoubt, made === null ? 1.5 : 0.2 + 0.25 * made, ...biases.map(() => 1)],
    ),
  );
  const misfits = follow<ChlorineAction>(
    events,
    at,
    {
      filter,
      place: THERE,
      methods,
      sharedVariance,
      pass: (from, to) => pass(filter, to - from),
      act: (action) => act(filter, action),
    },
    stateTeller(filter, THERE, onState),
  );
  return { ...result(filter), misfits };
}

function act(filter: Filter, action: ChlorineAction): void {
  if (action.kind === 'unknown') {
    filter.disturb(THERE, UNKNOWN_CHANGE ** 2);
    return;
  }
  filter.shift(THERE, action.mgPerLitre);
  filter.disturb(THERE, (action.doubt * action.mgPerLitre) ** 2);
}

/** dc/dt = made - loss c, solved; laid straight around the estimate. */
function pass(filter: Filter, days: number): void {
  if (!(days > 0)) return;
  const { mean } = filter.state;
  // It can't be less than none.
  const [there, logLoss, made] = [Math.max(0, mean[THERE]!), mean[LOSS]!, Math.max(0, mean[MADE]!)];
  const loss = Math.exp(logLoss);
  const stays = Math.exp(-loss * days);
  const gathered = (1 - stays) / loss;
  const next = there * stays + made * gathered;
  const byLoss = -loss * days * stays * there + made * (days * stays - gathered);
  filter.move(THERE, [THERE, stays, LOSS, byLoss, MADE, gathered]);
  filter.shift(THERE, next - filter.state.mean[THERE]!);
  // Each day's loss differs from the next; only what is left of a day's surplus counts.
  filter.disturb(
    THERE,
    (DAILY_DOUBT * loss * Math.max(there, next)) ** 2 * ((1 - stays ** 2) / (2 * loss)) + 0.01 * days,
  );
  filter.disturb(LOSS, 0.006 * days);
  filter.disturb(MADE, 0.01 * days);
}

function result(filter: Filter): Omit<ChlorineState, 'misfits'> {
  const { mean } = filter.state;
  const [there, loss] = [Math.max(0, mean[THERE]!), Math.exp(mean[LOSS]!)];
  // d(loss c) = loss dc + loss c dlog(loss).
  const variance = filter.varianceOf([THERE, loss, LOSS, loss * there]);
  return { mean: there, variance: filter.varianceOf([THERE, 1]), use: { mean: loss * there, variance } };
}
