/** Can each pad's colour be trusted: not mirrored over, not overexposed, not dry? */
import { ciede2000 } from '../colour/difference.ts';
import { linearToLab, type Triple } from '../colour/lab.ts';
import type { PadSample, PatchSample, StripSamples } from '../samples.ts';
import type { ScaleCurve } from '../scale/curve.ts';
import type { StripScale } from '../scale/schema.ts';
import type { Doubt, Judgement } from './doubts.ts';
import type { PadQuantity } from '../measurement/quantities.ts';
import { nearestOn } from './place.ts';

/** Share of a pad that a reflection brightens. Below, the median of the pad hardly moves. */
const GLARE_SHARE = 0.25;
/** Rise of the plastic right beside a pad against the rest of the plastic. */
const GLARE_RISE = 0.06;
/** What a shadow's edge on the slot may add to that rise, for each L* of its depth. */
const RISE_PER_SHADOW = 0.04;
/** A reflection's own doubt, CIEDE2000, and what its strength and reach add. */
const GLARE_SIGMA = 2;
const SIGMA_PER_RISE = 20;
const SIGMA_PER_SHARE = 4;
/** Share of a pad's pixels with a channel at its end. */
const CLIPPED_SHARE = 0.2;
const CLIPPED_SIGMA = 3;
const SHINING_SHARE = 0.5;

/**
 * @param toLinear a sample's corrected colour, linear
 * @param curves the scale's, one a pad
 * @param shadowSpread of the bare slot, L*: see `shadowEdge`
 * @param isPaperClipped whether the light alone is enough to fill the sensor
 */
export function judgePads(
  strip: StripSamples,
  scale: StripScale,
  toLinear: (sample: PatchSample) => Triple,
  curves: readonly ScaleCurve[],
  shadowSpread: number,
  isPaperClipped: boolean,
): Judgement {
  const labs = strip.pads.map((pad) => linearToLab(toLinear(pad)));
  const maxRise = GLARE_RISE + RISE_PER_SHADOW * shadowSpread;
  const doubts = strip.pads.flatMap((pad) => doubtsAboutPad(pad, riseBeside(pad, strip.base, toLinear), maxRise));
  // A reflection over a whole pad leaves nothing beside it to compare with, but fills the sensor.
  const shining = strip.pads
    .filter(({ clipped }) => !isPaperClipped && clipped > SHINING_SHARE)
    .map(({ id }) => id as PadQuantity);
  const glaring = doubts.filter(
    ({ code, parameter }) => code === 'glare-on-pad' || (parameter !== null && shining.includes(parameter)),
  );
  if (glaring.length >= strip.pads.length / 2) {
    const objections = glaring.map(({ parameter, outline }) => ({
      code: 'glare-over-pads' as const,
      parameter,
      outline,
    }));
    return { objections, doubts: [] };
  }
  switch (dryness(scale, labs, curves)) {
    case 'dry':
      return { objections: [{ code: 'pads-dry', parameter: null, outline: null }], doubts };
    case 'perhaps':
      return { objections: [], doubts: [{ code: 'perhaps-dry', sigma: 0, parameter: null, outline: null }, ...doubts] };
    case 'developed':
      return { objections: [], doubts };
  }
}

function doubtsAboutPad({ id, outline, brightened, clipped }: PadSample, rise: number, maxRise: number): Doubt[] {
  const parameter = id as PadQuantity;
  if (brightened > GLARE_SHARE || rise > maxRise) {
    const sigma = GLARE_SIGMA + SIGMA_PER_RISE * rise + SIGMA_PER_SHARE * brightened;
    return [{ code: 'glare-on-pad', sigma, parameter, outline }];
  }
  return clipped > CLIPPED_SHARE ? [{ code: 'pad-clipped', sigma: CLIPPED_SIGMA, parameter, outline }] : [];
}

/** How much brighter, in all three channels, the plastic right beside a pad is than the rest of it. */
export function riseBeside(
  pad: PadSample,
  base: readonly PatchSample[],
  toLinear: (sample: PatchSample) => Triple,
): number {
  if (base.length === 0) return 0;
  const linears = base.map(toLinear);
  const usual = [0, 1, 2].map((c) => linears.map((linear) => linear[c]!).sort((a, b) => a - b)[base.length >> 1]!);
  return Math.max(0, ...pad.beside.map((sample) => Math.min(...toLinear(sample).map((v, c) => v / usual[c]! - 1))));
}

/** How well a corrected pad is known, CIEDE2000, and the distance beyond which one pad has said all that it can. */
const PAD_SIGMA = 2.5;
const MAX_DISTANCE = 8;
/**
 * How much better (in squared standard deviations, over all pads) the dry colours explain the pads than the blocks do:
 * below zero, how much worse, and can't be ruled out. Of 36 dry strips of the studio none was below -3, of 98 dipped ones
 * in ordinary and 35 in soft water none above -9 but one under lamps on two sides.
 */
const DRY_EVIDENCE = { dry: -4, perhaps: -8 };
/** Root mean square distance from the dry colours beyond which the strip isn't dry. */
const MAX_DRY_DISTANCE = 6.5;

/** Are the pads, taken together, nearer to their colours before the dip than to any of their blocks? */
export function dryness(
  scale: StripScale,
  labs: readonly Triple[],
  curves: readonly ScaleCurve[],
): 'dry' | 'perhaps' | 'developed' {
  const known = scale.pads.flatMap(({ dry }, i) => {
    if (!dry) return [];
    const developed = Math.min(MAX_DISTANCE, nearestBlocks(curves[i]!, labs[i]!));
    return [{ dry: Math.min(MAX_DISTANCE, ciede2000(dry, labs[i]!)), developed }];
  });
  if (known.length < 2) return 'developed';
  const sum = (pick: (pad: (typeof known)[number]) => number) =>
    known.reduce((total, pad) => total + pick(pad) ** 2, 0);
  if (sum(({ dry }) => dry) > known.length * MAX_DRY_DISTANCE ** 2) return 'developed';
  const evidence = (sum(({ developed }) => developed) - sum(({ dry }) => dry)) / PAD_SIGMA ** 2;
  if (evidence > DRY_EVIDENCE.dry) return 'dry';
  return evidence > DRY_EVIDENCE.perhaps ? 'perhaps' : 'developed';
}

/** CIEDE2000 to the curve between its first and last block, not beyond them. */
function nearestBlocks(curve: ScaleCurve, lab: Triple): number {
  const { position } = nearestOn(curve, lab);
  return ciede2000(lab, curve.labAt(Math.min(curve.length, Math.max(0, position))));
}
