/** Which neighbouring blocks of a scale a person can tell apart by looking, with which kind of eyes. */
import { ciede2000 } from '../colour/difference.ts';
import { asSeenWith } from '../colour/vision.ts';
import type { Deficiency } from '../colour/vision.ts';
import type { ScalePad } from './schema.ts';

/**
 * Our limits, in CIEDE2000: below `same` two wet pads beside a bottle look alike, below `close` they are easily mixed
 * up. About 1 is what a keen eye can see with two patches touching in good light.
 */
export const BY_EYE = { same: 2, close: 4 } as const;

export type EyeVerdict = 'apart' | 'close' | 'same';

export interface Eyes {
  readonly deficiency: Deficiency;
  /** 0 (full colour vision) to 1. */
  readonly strength: number;
}

export interface Neighbours {
  /** Values of the two blocks, the lower first. */
  readonly from: number;
  readonly to: number;
  readonly deltaE: number;
  readonly verdict: EyeVerdict;
}

/** The gaps between the pad's neighbouring blocks as these eyes see them; null is full colour vision. */
export function neighboursByEye(pad: ScalePad, eyes: Eyes | null): Neighbours[] {
  const seen = pad.blocks.map(({ lab }) => (eyes ? asSeenWith(eyes.deficiency, eyes.strength, lab) : lab));
  return pad.blocks.slice(1).map((block, i) => {
    const deltaE = ciede2000(seen[i]!, seen[i + 1]!);
    return { from: pad.blocks[i]!.value, to: block.value, deltaE, verdict: verdictOf(deltaE) };
  });
}

/** Judged to a tenth, as it is shown. */
function verdictOf(deltaE: number): EyeVerdict {
  const shown = Math.round(deltaE * 10) / 10;
  if (shown < BY_EYE.same) return 'same';
  return shown < BY_EYE.close ? 'close' : 'apart';
}
