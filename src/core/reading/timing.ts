/** Was the photo taken while the colours stood for the water? */
import type { DipTimes } from '../dip/phases.ts';
import type { ReadOutcome, WarningCode } from './reading.ts';

export type TimingCode = Extract<WarningCode, 'read-early' | 'read-late'>;

/**
 * In whole seconds, as a person is told them; both ends of the window belong to it.
 * @param secondsSinceDip null where it isn't known: then nothing is said
 */
export function judgeTiming(
  { readAfterSeconds, readBeforeSeconds }: Pick<DipTimes, 'readAfterSeconds' | 'readBeforeSeconds'>,
  secondsSinceDip: number | null,
): TimingCode | null {
  if (secondsSinceDip === null) return null;
  const seconds = Math.round(secondsSinceDip);
  if (seconds < Math.round(readAfterSeconds)) return 'read-early';
  return seconds > Math.round(readBeforeSeconds) ? 'read-late' : null;
}

export function isTimingCode(code: string): code is TimingCode {
  return code === 'read-early' || code === 'read-late';
}

/** The outcome as it stands when the photo was taken so long after the dip; what was said before is taken back. */
export function withTiming(outcome: ReadOutcome, times: DipTimes, secondsSinceDip: number | null): ReadOutcome {
  const timing = judgeTiming(times, secondsSinceDip);
  const others = outcome.warnings.filter((code) => !isTimingCode(code));
  return { ...outcome, warnings: timing ? [timing, ...others] : others };
}
