/**
 * The sample photos, one by one. The pool is invented: 5.5 m round, salt chlorinator, in a hillside garden.
 * Each starts from a random scene of its seed and changes what its story needs.
 */
import { OF_FIVE_PADS } from './samples/of-five-pads.ts';
import { OF_FOUR_PADS } from './samples/of-four-pads.ts';
import { refused } from './samples/refused.ts';
import type { Sample } from './samples/story.ts';

export type { Sample } from './samples/story.ts';

export const SAMPLES: readonly Sample[] = [...OF_FOUR_PADS, ...OF_FIVE_PADS, ...refused()];
