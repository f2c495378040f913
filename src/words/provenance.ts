/** Where something comes from, and how far that was checked. */
import type { Provenance } from '../core/provenance.ts';

export function provenanceText({ source, status }: Provenance): string {
  switch (status) {
    case 'common-practice':
      return 'common practice, no source';
    case 'memory':
      return `${source}; from memory, unverified`;
    case 'read-elsewhere':
      return `${source}; as quoted elsewhere`;
    case 'read':
      return source;
  }
}
