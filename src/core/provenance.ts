/** Where a figure or a statement comes from, and how far that was checked. */

/**
 * 'read': seen in the named text. 'read-elsewhere': seen as quoted in another text. 'memory': from memory, unverified.
 * 'common-practice': what the trade does; no source.
 */
export type SourceStatus = 'read' | 'read-elsewhere' | 'memory' | 'common-practice';

export interface Provenance {
  /** Empty only for common practice. */
  readonly source: string;
  readonly status: SourceStatus;
}

export const COMMON_PRACTICE: Provenance = { source: '', status: 'common-practice' };

export function read(source: string): Provenance {
  return { source, status: 'read' };
}

export function readElsewhere(source: string): Provenance {
  return { source, status: 'read-elsewhere' };
}

export function fromMemory(source: string): Provenance {
  return { source, status: 'memory' };
}
