/** What a scale can't tell apart, in sentences. */
import { checkScale } from '../../core/scale/check-scale.ts';
import { scaleConcernText } from '../../words/scale.ts';
import type { StripScale } from '../../core/scale/schema.ts';

export function concernsOf(scale: StripScale): string[] {
  return checkScale(scale).map((concern) => scaleConcernText(scale, concern));
}
