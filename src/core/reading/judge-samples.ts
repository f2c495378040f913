/** All that the samples of card and strip say against a reading. */
import type { NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PatchSample, StripSamples } from '../samples.ts';
import type { ScaleCurve } from '../scale/curve.ts';
import type { StripScale } from '../scale/schema.ts';
import { type Judgement, mergeJudgements } from './doubts.ts';
import { judgeColour } from './judge-colour.ts';
import { judgeGreys } from './judge-greys.ts';
import { judgeLight, shadowEdge } from './judge-light.ts';
import { judgePads } from './judge-pads.ts';

export interface Seen {
  readonly card: CardSamples;
  readonly strip: StripSamples;
  readonly scale: StripScale;
  readonly correction: NeutralCorrection;
  /** The scale's, one a pad, as `correction` sees its colours. */
  readonly curves: readonly ScaleCurve[];
  readonly anotherPrint: boolean;
}

/** Share of the paper's pixels with a channel at its end. */
const CLIPPED_PAPER = 0.1;

function isPaperClipped({ paper }: CardSamples): boolean {
  return paper.reduce((sum, { clipped }) => sum + clipped, 0) > CLIPPED_PAPER * paper.length;
}

export function judgeSamples({ card, strip, scale, correction, curves, anotherPrint }: Seen): Judgement {
  const light = judgeLight(card, correction);
  // Under light that no correction undoes, colours tell nothing more.
  if (light.objections.length > 0) return light;
  const colour = judgeColour(card, strip, correction);
  const [edge] = light.doubts.filter(({ code }) => code === 'shadow-edge');
  // A shadow deep enough to take the colours away is the reason, not the camera.
  if (colour.objections.length > 0) {
    return edge
      ? { objections: [{ code: 'deep-shadow', parameter: null, outline: edge.outline }], doubts: [] }
      : colour;
  }
  const toLinear = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  return mergeJudgements(
    judgeGreys(card, correction, anotherPrint),
    colour,
    light,
    judgePads(strip, scale, toLinear, curves, shadowEdge(card, correction).spread, isPaperClipped(card)),
  );
}
