/** Finds the strip in the slot of the flattened card. */
import type { StripScale } from '../../core/scale/schema.ts';
import type { Pixels } from '../pixels.ts';
import { findAxis, stripMask } from './axis.ts';
import { fitBackground, gridOverSlot } from './grid.ts';
import { isBare } from './bare.ts';
import { findPads, type StripPose } from './pads.ts';

export type StripSearch =
  | { readonly found: true; readonly pose: StripPose }
  | { readonly found: false; readonly reason: 'no-strip' | 'strip-mismatch' | 'strip-face-down' };

/** @param flat the card at FLAT_PX_PER_MM */
export function findStrip(flat: Pixels, scale: StripScale): StripSearch {
  const grid = gridOverSlot(flat);
  const background = fitBackground(grid);
  const axis = findAxis(grid, stripMask(grid, background), scale.strip.widthMm);
  if (!axis) return { found: false, reason: 'no-strip' };
  const pose = findPads(flat, axis, background, scale);
  if (pose) return { found: true, pose };
  const bare = isBare(flat, axis, background, scale.strip.widthMm);
  return { found: false, reason: bare ? 'strip-face-down' : 'strip-mismatch' };
}
