import type { Reading } from '../core/reading/reading.ts';
import type { Pixels } from './pixels.ts';

export type ReadStage = 'start-engine' | 'find-card' | 'flatten' | 'find-strip' | 'read';

export interface ReadResult {
  readonly reading: Reading;
  /** The flattened card; null when no card was found. */
  readonly flat: Pixels | null;
  readonly millis: { readonly find: number; readonly read: number };
}
