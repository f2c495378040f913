/** What was given up ends with this error, as `fetch` has it. */
export function abortError(): DOMException {
  return new DOMException('cancelled', 'AbortError');
}

export function isAbort(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'AbortError';
}
