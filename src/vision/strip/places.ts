/** The places on the card that a strip's pads and bare plastic take up, given where the strip lies. */
import type { StripScale } from '../../core/scale/schema.ts';
import type { Point } from '../../core/card/homography.ts';
import type { Outline } from '../patch.ts';
import type { StripPose } from './pads.ts';

/** Kept clear around what lies in the slot, where the bare slot is sampled: its shadow, mm. */
export const SHADOW_MM = 2;
/** Bare plastic kept clear of the pads beside it, mm. */
const GAP_MARGIN_MM = 0.4;
const MIN_GAP_MM = 0.6;
/** Length of plastic beside a pad that a reflection on the pad still reaches, mm. */
const BESIDE_MM = 0.9;

/** A rectangle on the strip: from..to along it (mm of the strip from the pad end), and its full height across. */
export function quadOnStrip(pose: StripPose, fromMm: number, toMm: number, heightMm: number): Outline {
  const [ux, uy] = pose.along.map((part) => part * pose.scale) as [number, number];
  const at = (t: number, across: number): Point => [
    pose.endXMm + t * ux - across * uy,
    pose.endYMm + t * uy + across * ux,
  ];
  return [at(fromMm, -heightMm / 2), at(toMm, -heightMm / 2), at(toMm, heightMm / 2), at(fromMm, heightMm / 2)];
}

export function padQuads(pose: StripPose, scale: StripScale): Outline[] {
  return scale.pads.map((pad) =>
    quadOnStrip(pose, pad.centreMm - pad.widthMm / 2, pad.centreMm + pad.widthMm / 2, pad.heightMm),
  );
}

/** What of a strip says where its plastic is bare, mm. */
export interface StripOutline {
  readonly strip: { readonly lengthMm: number; readonly widthMm: number };
  readonly pads: readonly { readonly centreMm: number; readonly widthMm: number }[];
}

/** Bare plastic between the pads and for a little way beyond the last. */
export function baseQuads(pose: StripPose, scale: StripOutline): Outline[] {
  const ends = scale.pads.map((pad) => [pad.centreMm - pad.widthMm / 2, pad.centreMm + pad.widthMm / 2] as const);
  const last = ends.at(-1)![1];
  const gaps = ends.slice(1).map(([from], i) => [ends[i]![1], from] as const);
  const beyond = [last, Math.min(scale.strip.lengthMm, last + 6)] as const;
  const height = 0.6 * scale.strip.widthMm;
  return [...gaps, beyond]
    .map(([from, to]) => [from + GAP_MARGIN_MM, to - GAP_MARGIN_MM] as const)
    .filter(([from, to]) => to - from >= MIN_GAP_MM)
    .map(([from, to]) => quadOnStrip(pose, from, to, height));
}

/** Bare plastic right beside each pad, on both sides of it where there is any. */
export function besideQuads(pose: StripPose, scale: StripScale): Outline[][] {
  const ends = scale.pads.map((pad) => [pad.centreMm - pad.widthMm / 2, pad.centreMm + pad.widthMm / 2] as const);
  const height = 0.6 * scale.strip.widthMm;
  return ends.map(([from, to], i) => {
    const before = ends[i - 1]?.[1] ?? 0;
    const after = ends[i + 1]?.[0] ?? scale.strip.lengthMm;
    return [
      [from - GAP_MARGIN_MM - BESIDE_MM, from - GAP_MARGIN_MM] as const,
      [to + GAP_MARGIN_MM, to + GAP_MARGIN_MM + BESIDE_MM] as const,
    ]
      .filter(([near, far]) => near >= before + GAP_MARGIN_MM && far <= after - GAP_MARGIN_MM)
      .map(([near, far]) => quadOnStrip(pose, near, far, height));
  });
}

/** The whole strip with a margin for its shadow. */
export function stripQuad(pose: StripPose, scale: StripScale, marginMm: number): Outline {
  return quadOnStrip(pose, -marginMm, scale.strip.lengthMm + marginMm, scale.strip.widthMm + 2 * marginMm);
}
