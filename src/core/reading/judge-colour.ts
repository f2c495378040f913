/** Has the picture its own colours, or has an app taken or changed them? From the card's colour patches. */
import { ANCHORS } from '../card/geometry.ts';
import { decodeSrgb, linearToLab, type Triple } from '../colour/lab.ts';
import type { NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, StripSamples } from '../samples.ts';
import type { Judgement } from './doubts.ts';

/** Vividness of the card's patches against what was sent to the printer, below which a picture counts as without colour. */
const MIN_VIVID = 0.35;
/**
 * Outside these, a filter or an odd picture mode is at work. Of 30 real photos of a colour chart (test/reference) 27 lie
 * between 0.71 and 1.11, and three by a camera that renders nothing at 0.55 to 0.6; prints add a tenth either way.
 */
const PALE = 0.55;
const LOUD = 1.5;
const FILTER_SIGMA = 2;
/** On a card without colour patches: no pad's chroma reaches this. */
const MIN_CHROMA = 4;
/** Share of a patch's pixels with a channel at its end, above which its hue tells nothing. */
const MAX_CLIPPED = 0.1;
const MIN_PATCHES = 6;
/** Reflectance of common paper; see colour/neutrals.ts. */
const PAPER = 0.86;

export function judgeColour(card: CardSamples, strip: StripSamples, correction: NeutralCorrection): Judgement {
  const vivid = vividness(card, correction);
  const none = vivid === null ? maxChroma(strip, correction) < MIN_CHROMA : vivid < MIN_VIVID;
  if (none) return { objections: [{ code: 'no-colour', parameter: null, outline: null }], doubts: [] };
  if (vivid === null || (vivid >= PALE && vivid <= LOUD)) return { objections: [], doubts: [] };
  return { objections: [], doubts: [{ code: 'colour-filter', sigma: FILTER_SIGMA, parameter: null, outline: null }] };
}

/**
 * Chroma of the colour patches along the hues that were sent to the printer, as a share of what was sent: about 1
 * whatever the printer, 0 in a picture without colour, or one of a single hue. The median patch: a strong colour whose
 * weakest channel lies below every grey is led far astray by the tone curve.
 * @returns null for a card without colour patches that can be used
 */
export function vividness(card: CardSamples, correction: NeutralCorrection): number | null {
  const sent = new Map(ANCHORS.map(({ id, srgb }) => [id, linearToLab(onPaper(srgb))]));
  const shares = card.anchors.flatMap(({ id, rgb, xMm, yMm, clipped }) => {
    const nominal = sent.get(id);
    if (!nominal || clipped > MAX_CLIPPED) return [];
    const seen = linearToLab(correction.toLinear(rgb, xMm, yMm));
    return [(nominal[1] * seen[1] + nominal[2] * seen[2]) / (nominal[1] ** 2 + nominal[2] ** 2)];
  });
  if (shares.length < MIN_PATCHES) return null;
  return shares.sort((one, two) => one - two)[shares.length >> 1]!;
}

function onPaper(srgb: Triple): Triple {
  return [PAPER * decodeSrgb(srgb[0]), PAPER * decodeSrgb(srgb[1]), PAPER * decodeSrgb(srgb[2])];
}

function maxChroma(strip: StripSamples, correction: NeutralCorrection): number {
  const chromas = strip.pads.map(({ rgb, xMm, yMm }) => {
    const [, a, b] = linearToLab(correction.toLinear(rgb, xMm, yMm));
    return Math.hypot(a, b);
  });
  return Math.max(...chromas);
}
