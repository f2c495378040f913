/** The colours of the pads and of the bare plastic beside them. */
import type { PadSample, PatchSample, StripSamples } from '../../core/samples.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { samplePatch } from '../patch.ts';
import type { Pixels } from '../pixels.ts';
import type { StripPose } from './pads.ts';
import { baseQuads, padQuads, type StripOutline } from './places.ts';

/** Left out along a pad's sides: blur, bleeding, and what the pad's place may be off by. */
const PAD_INSET_MM = 1;
const BASE_INSET_MM = 0.1;

/** @returns null when a pad is too small to sample or lies off the card */
export function sampleStrip(flat: Pixels, pose: StripPose, scale: StripScale): StripSamples | null {
  const pads: PadSample[] = [];
  for (const [i, outline] of padQuads(pose, scale).entries()) {
    const { parameter, widthMm, heightMm } = scale.pads[i]!;
    const insetMm = Math.min(PAD_INSET_MM, 0.25 * Math.min(widthMm, heightMm));
    const sample = samplePatch(flat, { id: parameter, outline, insetMm });
    if (!sample) return null;
    pads.push({ ...sample, outline });
  }
  return { base: sampleBase(flat, pose, scale), pads, reversed: pose.reversed };
}

/** The bare plastic between and beyond the pads. */
export function sampleBase(flat: Pixels, pose: StripPose, strip: StripOutline): PatchSample[] {
  return baseQuads(pose, strip).flatMap((outline, i) => {
    const sample = samplePatch(flat, { id: `base${i + 1}`, outline, insetMm: BASE_INSET_MM });
    return sample ? [sample] : [];
  });
}
