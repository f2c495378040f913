import { targetsFor } from '../water/targets.ts';
import { spansFrom } from './spans.ts';

/** Of a salt pool lined with vinyl, before the plan has worked out another one's. */
export const USUAL_SPANS = spansFrom(
  targetsFor({ surface: 'vinyl', chlorination: 'chlorinator', stabilised: true }, 50),
);
