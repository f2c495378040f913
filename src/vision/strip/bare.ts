/** A strip that shows nothing but plastic. */
import type { Pixels } from '../pixels.ts';
import type { Axis } from './axis.ts';
import type { Background } from './grid.ts';
import { profileAlong, stripRun, unlikeBase } from './profile.ts';

/** Unlikeness to the plastic, as a share of its level, that a pad's colour exceeds and shading along the strip doesn't. */
const PLASTIC_ONLY = 0.1;
/** Share of the strip that may exceed it: its ends, specks. */
const MAX_UNLIKE = 0.06;

/** True when the back of a strip, or a strip without pads, lies along the axis. */
export function isBare(flat: Pixels, axis: Axis, background: Background, widthMm: number): boolean {
  const profile = profileAlong(flat, axis, background, widthMm);
  const run = stripRun(profile);
  if (!run) return false;
  const unlike = unlikeBase(profile, run).slice(run.from, run.to + 1);
  return unlike.filter((share) => share > PLASTIC_ONLY).length < MAX_UNLIKE * unlike.length;
}
