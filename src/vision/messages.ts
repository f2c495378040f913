/** What page and worker say to each other. */
import type { StripScale } from '../core/scale/schema.ts';
import type { ReadResult, ReadStage } from './read-result.ts';

export type { ReadResult, ReadStage };

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
