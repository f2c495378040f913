/** Samples of a card and a strip as a perfect camera would see them, for the judges' tests. */
import { ANCHORS, NEUTRALS, PAPER_PATCHES, type Rect, SLOT } from '../../../src/core/card/geometry.ts';
import { decodeSrgb, encodeSrgb, labToLinear, type Triple } from '../../../src/core/colour/lab.ts';
import type { NeutralCorrection } from '../../../src/core/colour/neutrals.ts';
import type { CardSamples, PadSample, PatchSample } from '../../../src/core/samples.ts';

/** Takes the photo's colours as they are. */
export const PLAIN: NeutralCorrection = {
  toLinear: (rgb) => rgb.map(decodeSrgb) as unknown as Triple,
  residual: 0.5,
  castResidual: 0.5,
  shadingPercent: 5,
  print: { dotGain: 0, black: 0.05, tint: [0, 0] },
  tinted: [],
};

export function patch(id: string, rgb: Triple, change: Partial<PatchSample> = {}): PatchSample {
  return { id, xMm: 74, yMm: 52, rgb, scatter: [0, 0, 0], count: 100, clipped: 0, rejected: 0, ...change };
}

export function grey(linear: number): Triple {
  return [encodeSrgb(linear), encodeSrgb(linear), encodeSrgb(linear)];
}

export function encoded(lab: Triple): Triple {
  return labToLinear(lab).map(encodeSrgb) as unknown as Triple;
}

const middle = ({ xMm, yMm, widthMm, heightMm }: Rect) => ({ xMm: xMm + widthMm / 2, yMm: yMm + heightMm / 2 });

/** Paper of 0.86, inks with a dot gain of 18 % at half coverage, and 21 spots of the bare slot. */
export function evenCard(change: Partial<CardSamples> = {}): CardSamples {
  const inked = (ink: number) => {
    const area = ink + 4 * 0.18 * ink * (1 - ink);
    return grey(0.86 * (1 - area) + 0.05 * area);
  };
  return {
    version: 1,
    printMark: null,
    variant: 'colour',
    neutrals: NEUTRALS.map((neutral) => patch(neutral.id, inked(neutral.ink), middle(neutral))),
    anchors: ANCHORS.map((anchor) => patch(anchor.id, anchor.srgb.map(onPaper) as unknown as Triple, middle(anchor))),
    paper: PAPER_PATCHES.map((paper) => patch(paper.id, inked(0), middle(paper))),
    slot: Array.from({ length: 21 }, (_, i) => patch(`s${i}`, inked(SLOT.ink), { xMm: 24 + 5 * i, yMm: 52 })),
    ...change,
  };
}

function onPaper(level: number): number {
  return encodeSrgb(0.86 * decodeSrgb(level));
}

export function pad(id: string, lab: Triple, change: Partial<PadSample> = {}): PadSample {
  const outline = [
    [40, 50],
    [45, 50],
    [45, 55],
    [40, 55],
  ] as const;
  return { ...patch(id, encoded(lab)), brightened: 0, beside: [], outline, ...change };
}

/** Share of ink by the id of a neutral. */
export const inkOf = new Map(NEUTRALS.map(({ id, ink }) => [id, ink]));

/** The card with its neutrals of some inks changed. */
export function withInks(inks: readonly number[], change: (sample: PatchSample) => Partial<PatchSample>): CardSamples {
  const card = evenCard();
  const neutrals = card.neutrals.map((one) => (inks.includes(inkOf.get(one.id)!) ? { ...one, ...change(one) } : one));
  return { ...card, neutrals };
}
