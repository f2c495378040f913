/** Is the light over the card even, of one colour, and free of shadow edges? From the card's samples. */
import { NEUTRALS, SLOT } from '../card/geometry.ts';
import { decodeSrgb, linearToLab } from '../colour/lab.ts';
import type { NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import type { Doubt, Judgement, Objection, Outline } from './doubts.ts';

/** Change of light over the slot that is worth a word, per cent. */
const UNEVEN_PERCENT = 40;
/** Spread of L* that is left over the bare slot after correction: a shadow's edge that no smooth light explains. */
const SHADOW_EDGE = 4;
const DEEP_SHADOW_EDGE = 12;
/** How much of that spread a pad's colour may be off by. */
const SHADOW_SHARE = 0.15;
/** Difference in the colour of the light between places of the card, per cent of red or blue against green. */
const MIXED_PERCENT = 40;
const MAX_MIXED_PERCENT = 100;
const MIXED_SIGMA_PER_PERCENT = 0.02;
/** Misfit of the greys, CIEDE2000, that asks for a word. */
const RESIDUAL_LIMIT = 3;

export function judgeLight(card: CardSamples, correction: NeutralCorrection): Judgement {
  const doubts: Doubt[] = [];
  const objections: Objection[] = [];
  const add = (code: Doubt['code'], sigma: number, outline: Outline | null = null) =>
    doubts.push({ code, sigma, parameter: null, outline });
  const edge = shadowEdge(card, correction);
  const mixed = mixedPercent(card);
  if (edge.spread > DEEP_SHADOW_EDGE) objections.push({ code: 'deep-shadow', parameter: null, outline: edge.outline });
  else if (edge.spread > SHADOW_EDGE) add('shadow-edge', SHADOW_SHARE * edge.spread, edge.outline);
  else if (correction.shadingPercent > UNEVEN_PERCENT) add('uneven-light', 0);
  if (mixed > MAX_MIXED_PERCENT) objections.push({ code: 'two-lights', parameter: null, outline: null });
  else if (mixed > MIXED_PERCENT) add('mixed-light', MIXED_SIGMA_PER_PERCENT * mixed);
  if (doubts.length === 0 && correction.residual > RESIDUAL_LIMIT) add('poor-fit', 0);
  return { objections, doubts };
}

/** Spread of corrected L* (5th to 95th percentile) over the bare slot, and the box around its dark part. */
export function shadowEdge(card: CardSamples, correction: NeutralCorrection): { spread: number; outline: Outline } {
  const seen = card.slot.map(({ rgb, xMm, yMm }) => ({
    lightness: linearToLab(correction.toLinear(rgb, xMm, yMm))[0],
    xMm,
    yMm,
  }));
  const sorted = seen.map(({ lightness }) => lightness).sort((one, two) => one - two);
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))] ?? 0;
  const [dark, light] = [at(0.05), at(0.95)];
  return { spread: light - dark, outline: boxAround(seen.filter(({ lightness }) => lightness < (dark + light) / 2)) };
}

/** Half the size of a place in which the slot is sampled, mm. */
const HALF_WIDTH_MM = 7;
const HALF_HEIGHT_MM = 2;

function boxAround(places: readonly { readonly xMm: number; readonly yMm: number }[]): Outline {
  const xs = places.map(({ xMm }) => xMm);
  const ys = places.map(({ yMm }) => yMm);
  const left = Math.max(SLOT.xMm, Math.min(...xs) - HALF_WIDTH_MM);
  const right = Math.min(SLOT.xMm + SLOT.widthMm, Math.max(...xs) + HALF_WIDTH_MM);
  const top = Math.max(SLOT.yMm, Math.min(...ys) - HALF_HEIGHT_MM);
  const bottom = Math.min(SLOT.yMm + SLOT.heightMm, Math.max(...ys) + HALF_HEIGHT_MM);
  return [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ];
}

/** Greys darker than this show a camera's own casts in the dark rather than the light's colour. */
const DARKEST_INK = 0.42;

/**
 * Largest difference in red or blue against green between two places of the same ink, per cent: one light has one
 * colour, wherever it falls.
 */
export function mixedPercent(card: CardSamples): number {
  const inkOf = new Map(NEUTRALS.map(({ id, ink }) => [id, ink]));
  const groups = new Map<number, PatchSample[]>([[0, [...card.paper]]]);
  for (const sample of card.neutrals) {
    const ink = inkOf.get(sample.id) ?? 1;
    if (ink <= DARKEST_INK) groups.set(ink, [...(groups.get(ink) ?? []), sample]);
  }
  return Math.max(0, ...[...groups.values()].map(spreadOfCast));
}

function spreadOfCast(samples: readonly PatchSample[]): number {
  const casts = samples
    .filter(({ clipped }) => clipped < 0.02)
    .map(({ rgb }) => {
      const [red, green, blue] = rgb.map((level) => Math.log(Math.max(1e-4, decodeSrgb(level)))) as [
        number,
        number,
        number,
      ];
      return [red - green, blue - green] as const;
    });
  const pairs = casts.flatMap((one) =>
    casts.map((two) => Math.max(Math.abs(one[0] - two[0]), Math.abs(one[1] - two[1]))),
  );
  return 100 * Math.max(0, ...pairs);
}
