/** Are the card's greys grey, and is it the card that the scale was taught with? */
import { NEUTRALS, PAPER_PATCHES, type Rect, SLOT } from '../card/geometry.ts';
import type { NeutralCorrection, TintedGrey } from '../colour/neutrals.ts';
import type { CardSamples } from '../samples.ts';
import type { Doubt, Judgement, Outline } from './doubts.ts';

const CAST_LIMIT = 1.5;
/** Greys further than this from grey are beyond what the correction was tried on: see the bench of printers. */
const MAX_CAST = 8;

/** The doubts here add nothing to the intervals by themselves: the correction and the views already have. */
export function judgeGreys(card: CardSamples, correction: NeutralCorrection, anotherPrint: boolean): Judgement {
  const tinted = outlinesOf(correction.tinted);
  if (correction.castResidual > MAX_CAST) {
    return { objections: tinted.map((outline) => ({ code: 'greys-mixed', parameter: null, outline })), doubts: [] };
  }
  const doubt = (code: Doubt['code'], outline: Outline | null): Doubt => ({ code, sigma: 0, parameter: null, outline });
  const doubts: Doubt[] = [];
  if (card.variant === 'black') doubts.push(doubt('black-only-card', null));
  if (anotherPrint) doubts.push(doubt('another-print', null));
  if (correction.castResidual > CAST_LIMIT) {
    doubts.push(...(tinted.length > 0 ? tinted : [null]).map((outline) => doubt('greys-not-neutral', outline)));
  }
  return { objections: [], doubts };
}

const GREYS = new Map<string, Rect>([...NEUTRALS, ...PAPER_PATCHES].map((patch) => [patch.id, patch]));

/** One a patch; the slot, which is sampled in several spots, is one. */
function outlinesOf(greys: readonly TintedGrey[]): Outline[] {
  const patches = new Set(greys.map(({ id }) => GREYS.get(id) ?? SLOT));
  return [...patches].map(({ xMm, yMm, widthMm, heightMm }) => [
    [xMm, yMm],
    [xMm + widthMm, yMm],
    [xMm + widthMm, yMm + heightMm],
    [xMm, yMm + heightMm],
  ]);
}
