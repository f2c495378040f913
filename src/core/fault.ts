/** What a schema found wrong, as data: the words say it. */
import type * as z from 'zod';

export interface Fault {
  readonly path: readonly (string | number)[];
  /** One of those below, or the schema's own. */
  readonly code: string;
  /** Of a number, or of the length of a text or a list. */
  readonly limit?: number;
  /** The limit itself is allowed. */
  readonly inclusive?: boolean;
  /** What it must be one of. */
  readonly allowed?: readonly string[];
  /** Of a check of the schema's own. */
  readonly facts?: Readonly<Record<string, unknown>>;
}

/** A check of a schema's own carries its code in `params`. */
export function faultOf(issue: z.core.$ZodIssue): Fault {
  const path = issue.path.map((key) => (typeof key === 'number' ? key : String(key)));
  switch (issue.code) {
    case 'invalid_type':
      return { path, code: issue.expected === 'number' ? 'not-a-number' : 'wrong-kind' };
    case 'too_small':
      return { path, code: 'too-small', limit: Number(issue.minimum), inclusive: issue.inclusive !== false };
    case 'too_big':
      return { path, code: 'too-large', limit: Number(issue.maximum), inclusive: issue.inclusive !== false };
    case 'invalid_value':
      return { path, code: 'not-one-of', allowed: issue.values.map(String) };
    case 'custom': {
      const { code = 'wrong-kind', ...facts } = issue.params ?? {};
      return { path, code: String(code), facts };
    }
    default:
      return { path, code: 'wrong-kind' };
  }
}
