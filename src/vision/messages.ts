/** What page and worker say to each other. */
import type { Reading } from '../core/reading/reading.ts';
import type { StripScale } from '../core/scale/schema.ts';
import type { Pixels } from './pixels.ts';

export type ReadStage = 'start-engine' | 'find-card' | 'flatten' | 'find-strip' | 'read';

export interface ReadResult {
  readonly reading: Reading;
  /** The flattened card; null when no card was found. */
  readonly flat: Pixels | null;
  readonly millis: { readonly find: number; readonly read: number };
}

export interface WorkerRequest {
  readonly kind: 'read';
  /** Handed over: the sender can't use it any more. */
  readonly bitmap: ImageBitmap;
  readonly scale: StripScale;
}

export type WorkerResponse =
  | { readonly kind: 'stage'; readonly stage: ReadStage }
  | { readonly kind: 'done'; readonly result: ReadResult }
  | { readonly kind: 'failed'; readonly message: string };
