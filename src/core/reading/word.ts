/** The word beside a value. */
import type { PadReading, Word } from './reading.ts';

/** @param target where the value should lie; without one, only what the pad itself says can be worded */
export function wordOf(
  pad: Pick<PadReading, 'matched' | 'value' | 'offScale'>,
  target: { readonly low: number; readonly high: number } | null,
): Word | null {
  if (!pad.matched || pad.value === null) return 'unmatched';
  if (pad.offScale !== null) return 'off-scale';
  if (target === null) return null;
  if (pad.value < target.low) return 'low';
  return pad.value > target.high ? 'high' : 'in-range';
}

/** What is said of a value: its word, a second one where two values fit and theirs differ, and whether they are sure. */
export interface Judgement {
  readonly word: Word;
  /** Of the second value that fits, where it isn't the same. */
  readonly otherWord: Word | null;
  /** The word holds all over the interval. */
  readonly isSure: boolean;
}

/** Null where there is no target to judge by. */
export function judge(
  pad: Pick<PadReading, 'matched' | 'value' | 'low' | 'high' | 'alternative' | 'offScale'>,
  target: { readonly low: number; readonly high: number } | null,
): Judgement | null {
  const wordAt = (value: number | null) => wordOf({ ...pad, value }, target);
  const word = wordAt(pad.value);
  if (!word) return null;
  const other = pad.alternative && wordAt(pad.alternative.value);
  const ends = [pad.low, pad.high, pad.alternative?.low ?? null, pad.alternative?.high ?? null];
  return {
    word,
    otherWord: other === word ? null : other,
    isSure: ends.every((end) => end === null || wordAt(end) === word),
  };
}
