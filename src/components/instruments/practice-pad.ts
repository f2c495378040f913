/** The pH pad of a practice scale, for instruments to play with. */
import scale from '../../content/scales/practice-four.json' with { type: 'json' };
import type { ScalePad } from '../../core/scale/schema.ts';

/* The collection's schema has checked the file when the site is built. */
export const PRACTICE_PAD = scale.pads.find(({ parameter }) => parameter === 'ph') as unknown as ScalePad;
