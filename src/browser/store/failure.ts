/** What can go wrong with keeping something. In every case nothing of the change was written. */

export type StoreFailure =
  /** No room left. */
  | 'full'
  /** Another tab changed the same thing in the meantime. */
  | 'conflict'
  /** Written by a later program: only to be looked at and saved to a file. */
  | 'read-only'
  /** The browser closed or lost the store. */
  | 'broken';

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
