/** Failures of the store as errors. */
import type { StoreFailure } from '../../core/log/store-failure.ts';

export class StoreError extends Error {
  readonly failure: StoreFailure;

  constructor(failure: StoreFailure, cause?: unknown) {
    super(`the logbook could not be written: ${failure}`, { cause });
    this.failure = failure;
  }
}

export function toStoreError(error: unknown): StoreError {
  if (error instanceof StoreError) return error;
  const full = error instanceof DOMException && error.name === 'QuotaExceededError';
  return new StoreError(full ? 'full' : 'broken', error);
}
