/** Where each reading should lie, for the words and the hatched spans. */
import type { ParameterId } from '../../core/reading/parameters.ts';

export function targetOf(_parameter: ParameterId): { readonly low: number; readonly high: number } | null {
  return null;
}
