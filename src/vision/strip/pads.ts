/** Where along the strip its pads lie, and which end they are at. */
import { SLOT } from '../../core/card/geometry.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { Pixels } from '../pixels.ts';
import type { Axis } from './axis.ts';
import type { Background } from './grid.ts';
import { type Profile, profileAlong, type Run, stripRun, unlikeBase } from './profile.ts';

/** Place of the strip on the card: its pad end, and the direction from there towards the other end. */
export interface StripPose {
  readonly endXMm: number;
  readonly endYMm: number;
  /** Unit vector along the strip, away from the pad end. */
  readonly along: readonly [number, number];
  readonly reversed: boolean;
  /** Length of a millimetre of the strip on the card: not 1 where the card was printed larger or smaller than drawn. */
  readonly scale: number;
  /** How much more the pads differ from the plastic than the gaps do, 0 to about 0.5. */
  readonly contrast: number;
}

const MIN_CONTRAST = 0.02;
/** To believe in a print of another size takes more: strips by `npm run hard` reach 0.17, a blank back 0.07. */
const MIN_SCALED_CONTRAST = 0.1;
const SAME_SCALE = 0.025;
/** How far the strip's end may lie from where the strip seems to end, mm, and what that costs in contrast per mm2. */
const END_SLACK_MM = 3;
const OFF_END_COST = 0.002;
/** Cards are printed at nine to eleven tenths of their size, when a printer fits them to its page; what that costs. */
const SCALES = [0.9, 1.12] as const;
const OFF_SCALE_COST = 0.5;
/** Steps of the search, and of its second round about the best place. */
const COARSE = { offMm: 0.4, scale: 0.02 } as const;
const FINE = { offMm: 0.1, scale: 0.005 } as const;

/** @returns null when no place along the axis has pads where the scale has them */
export function findPads(flat: Pixels, axis: Axis, background: Background, scale: StripScale): StripPose | null {
  const profile = profileAlong(flat, axis, background, scale.strip.widthMm);
  const run = stripRun(profile);
  if (!run) return null;
  const unlike = unlikeBase(profile, run);
  const search = { profile, run, unlike, scale };
  const [coarse] = [false, true].flatMap((reversed) => placesFor(search, reversed, COARSE)).sort(better);
  if (!coarse) return null;
  const [best] = [coarse, ...placesFor(search, coarse.reversed, FINE, coarse)].sort(better);
  const { endMm, reversed, scale: size } = best!;
  const least = Math.abs(size - 1) > SAME_SCALE ? MIN_SCALED_CONTRAST : MIN_CONTRAST;
  if (best!.contrast < least || isOtherLength(profile, run, scale.strip.lengthMm * size)) return null;
  const length = Math.hypot(1, axis.slope);
  const [ux, uy] = [1 / length, axis.slope / length];
  const sign = reversed ? -1 : 1;
  return {
    endXMm: endMm * ux,
    endYMm: axis.interceptMm + endMm * uy,
    along: [sign * ux, sign * uy],
    reversed,
    scale: size,
    contrast: best!.contrast,
  };
}

/** The strip's shadow makes it look longer by up to 2 mm; beyond that, it is another product. */
const SHADOW_MM = 0.7;
const LENGTH_SLACK_MM = 3.3;

/** Tells only when both ends lie inside the slot. */
function isOtherLength({ fromMm, stepMm }: Profile, run: Run, lengthMm: number): boolean {
  const [startMm, stopMm] = [fromMm + run.from * stepMm, fromMm + (run.to + 1) * stepMm];
  if (!insideSlot(startMm) || !insideSlot(stopMm)) return false;
  return Math.abs(stopMm - startMm - SHADOW_MM - lengthMm) > LENGTH_SLACK_MM;
}

interface Candidate {
  readonly endMm: number;
  readonly reversed: boolean;
  readonly scale: number;
  /** From where the strip seems to end, mm. */
  readonly offMm: number;
  readonly score: number;
  readonly contrast: number;
}

function better(one: Candidate, two: Candidate): number {
  return two.score - one.score;
}

interface Search {
  readonly profile: Profile;
  readonly run: Run;
  readonly unlike: Float64Array;
  readonly scale: StripScale;
}

/** @param about the place to look around; null for everywhere */
function placesFor(
  search: Search,
  reversed: boolean,
  step: { readonly offMm: number; readonly scale: number },
  about: Candidate | null = null,
): Candidate[] {
  const { profile, run, scale } = search;
  const startMm = profile.fromMm + run.from * profile.stepMm;
  const stopMm = profile.fromMm + (run.to + 1) * profile.stepMm;
  const [nearMm, farMm] = reversed ? [stopMm, startMm] : [startMm, stopMm];
  const sign = reversed ? -1 : 1;
  const bothSeen = insideSlot(nearMm) && insideSlot(farMm);
  const candidates: Candidate[] = [];
  for (const size of around(about?.scale ?? null, SCALES, step.scale, COARSE.scale)) {
    // An end that lies beyond the slot is white on white: then the other end and the length tell.
    const lengthMm = size * scale.strip.lengthMm;
    const expected = insideSlot(nearMm) ? nearMm : farMm - sign * lengthMm;
    for (const offMm of around(about?.offMm ?? null, [-END_SLACK_MM, END_SLACK_MM], step.offMm, COARSE.offMm)) {
      const endMm = expected + offMm;
      const contrast = padContrast(search, endMm, size, reversed);
      const farOffMm = bothSeen ? Math.min(END_SLACK_MM, Math.abs(endMm + sign * lengthMm - farMm)) : 0;
      const cost = OFF_END_COST * (offMm * offMm + farOffMm * farOffMm) + OFF_SCALE_COST * (size - 1) ** 2;
      candidates.push({ endMm, reversed, scale: size, offMm, contrast, score: contrast - cost });
    }
  }
  return candidates;
}

/** Evenly from one bound to the other, or less than a coarse step to both sides of a place. */
function around(place: number | null, [low, high]: readonly [number, number], step: number, coarse: number): number[] {
  const from = place === null ? low : Math.max(low, place - coarse + step);
  const to = place === null ? high : Math.min(high, place + coarse - step);
  return Array.from({ length: Math.floor((to - from) / step + 1.001) }, (_, i) => from + i * step);
}

function insideSlot(alongMm: number): boolean {
  return alongMm > SLOT.xMm + 1.5 && alongMm < SLOT.xMm + SLOT.widthMm - 1.5;
}

/** Mean unlikeness of pads less that of the gaps and the plastic beside them. */
function padContrast({ profile, unlike, scale }: Search, endMm: number, size: number, reversed: boolean): number {
  const sign = reversed ? -1 : 1;
  let [inside, insideCount, outside, outsideCount] = [0, 0, 0, 0];
  const first = scale.pads[0]!;
  const last = scale.pads.at(-1)!;
  const from = Math.max(0.3, first.centreMm - first.widthMm / 2 - 3);
  const to = Math.min(scale.strip.lengthMm - 0.3, last.centreMm + last.widthMm / 2 + 15);
  let next = 0;
  for (let t = from; t < to; t += profile.stepMm) {
    const i = Math.round((endMm + sign * size * t - profile.fromMm) / profile.stepMm);
    const value = unlike[i] ?? 0.3;
    while (next < scale.pads.length - 1 && t > scale.pads[next]!.centreMm + scale.pads[next]!.widthMm / 2) next++;
    const pad = scale.pads[next]!;
    if (Math.abs(t - pad.centreMm) < pad.widthMm / 2) {
      inside += value;
      insideCount++;
    } else {
      outside += value;
      outsideCount++;
    }
  }
  return inside / Math.max(1, insideCount) - outside / Math.max(1, outsideCount);
}
