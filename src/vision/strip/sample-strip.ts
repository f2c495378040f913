/** The colours of the pads and of the bare plastic beside them. */
import type { PadSample, PatchSample, Rgb, StripSamples } from '../../core/samples.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { type Outline, pixelsIn, samplePatch } from '../patch.ts';
import type { Pixels } from '../pixels.ts';
import type { StripPose } from './pads.ts';
import { baseQuads, besideQuads, padQuads, type StripOutline } from './places.ts';
import { brightenedShare } from './reflection.ts';

/** Left out along a pad's sides: blur, bleeding, and what the pad's place may be off by. */
const PAD_INSET_MM = 1;
const BASE_INSET_MM = 0.1;

/** @returns null when a pad is too small to sample or lies off the card */
export function sampleStrip(flat: Pixels, pose: StripPose, scale: StripScale): StripSamples | null {
  const base = sampleBase(flat, pose, scale);
  const besides = besideQuads(pose, scale);
  const white = medianOf(base);
  const pads: PadSample[] = [];
  for (const [i, outline] of padQuads(pose, scale).entries()) {
    const { parameter, widthMm, heightMm } = scale.pads[i]!;
    const place = { id: parameter, outline, insetMm: Math.min(PAD_INSET_MM, 0.25 * Math.min(widthMm, heightMm)) };
    const sample = samplePatch(flat, place);
    if (!sample) return null;
    const brightened = brightenedShare(pixelsIn(flat, place), white);
    pads.push({ ...sample, outline, brightened, beside: besides[i]!.flatMap((quad) => plasticAt(flat, quad)) });
  }
  return { base, pads, reversed: pose.reversed };
}

/** The bare plastic between and beyond the pads. */
export function sampleBase(flat: Pixels, pose: StripPose, strip: StripOutline): PatchSample[] {
  return baseQuads(pose, strip).flatMap((outline) => plasticAt(flat, outline));
}

function plasticAt(flat: Pixels, outline: Outline): PatchSample[] {
  const sample = samplePatch(flat, { id: 'base', outline, insetMm: BASE_INSET_MM });
  return sample ? [sample] : [];
}

/** Of each channel; white where there is no bare plastic to look at. */
function medianOf(base: readonly PatchSample[]): Rgb {
  const middle = (c: 0 | 1 | 2) => base.map(({ rgb }) => rgb[c]).sort((one, two) => one - two)[base.length >> 1] ?? 1;
  return [middle(0), middle(1), middle(2)];
}
