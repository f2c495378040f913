import type { Reading } from '../core/reading/reading.ts';
import type { CardSamples, PatchSample } from '../core/samples.ts';
import type { Pixels } from './pixels.ts';

export type ReadStage = 'take-pixels' | 'find-card' | 'flatten' | 'find-strip' | 'read';

/** Work done stage by stage: each is named before it begins, and between two of them it may be put off or given up. */
export type InStages<Result> = Generator<ReadStage, Result, void>;

/** All stages, one right after the other. @param onStage told before each begins */
export function atOnce<Result>(
  stages: InStages<Result>,
  onStage: (stage: ReadStage) => void = () => undefined,
): Result {
  for (;;) {
    const { done, value } = stages.next();
    if (done) return value;
    onStage(value);
  }
}

export interface ReadResult {
  readonly reading: Reading;
  /** The flattened card; null when no card was found. */
  readonly flat: Pixels | null;
  /** The colours that the reading rests on, as the photo has them; null when no strip was found. */
  readonly seen: Seen | null;
  readonly millis: { readonly find: number; readonly read: number };
}

export interface Seen {
  readonly card: CardSamples;
  readonly pads: readonly PatchSample[];
}
