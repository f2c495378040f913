/** What is to be done at each moment of a dip. Pure: whoever asks brings the clock. */

/** The three times of a strip scale; the window counts from the end of the dip. */
export interface DipTimes {
  readonly dipSeconds: number;
  readonly readAfterSeconds: number;
  readonly readBeforeSeconds: number;
}

/** In their order. */
export const DIP_PHASES = ['dip', 'lift', 'wait', 'read', 'past'] as const;
export type DipPhase = (typeof DIP_PHASES)[number];

export interface DipMoment {
  readonly phase: DipPhase;
  /** Until the phase ends; null in the last, which doesn't. */
  readonly leftSeconds: number | null;
  /** From the phase's beginning to its end; null in the last. */
  readonly wholeSeconds: number | null;
}

/** For shaking off the drops and laying the strip in the slot. Common practice, no source. */
const LIFT_SECONDS = 6;
/** The lift takes no more than this share of the time until the window opens. */
const MAX_LIFT = 0.5;

interface Phase {
  readonly phase: DipPhase;
  readonly from: number;
  readonly to: number;
}

/** Phases that a scale gives no time to are left out. Seconds count from the end of the dip. */
export function phasesOf({ dipSeconds, readAfterSeconds, readBeforeSeconds }: DipTimes): readonly Phase[] {
  const lifted = Math.min(LIFT_SECONDS, MAX_LIFT * readAfterSeconds);
  const all: readonly Phase[] = [
    { phase: 'dip', from: -dipSeconds, to: 0 },
    { phase: 'lift', from: 0, to: lifted },
    { phase: 'wait', from: lifted, to: readAfterSeconds },
    { phase: 'read', from: readAfterSeconds, to: readBeforeSeconds },
    { phase: 'past', from: readBeforeSeconds, to: Infinity },
  ];
  return all.filter(({ from, to }) => to > from);
}

/**
 * @param secondsSinceDip from the end of the dip; negative while the strip is still in the water
 */
export function momentAt(times: DipTimes, secondsSinceDip: number): DipMoment {
  const phases = phasesOf(times);
  // Before the first, as where a clock was set back: the first has yet to begin.
  const { phase, from, to } = phases.find((one) => secondsSinceDip < one.to) ?? phases.at(-1)!;
  if (to === Infinity) return { phase, leftSeconds: null, wholeSeconds: null };
  return { phase, leftSeconds: Math.min(to - secondsSinceDip, to - from), wholeSeconds: to - from };
}
