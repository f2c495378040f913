/** Replacing part of the water: the only way out for stabilizer, salt and hardness. */
import { contentsOf, waterFrom } from '../equilibrium.ts';
import { WaterError } from '../errors.ts';
import type { Contents, Water } from '../water.ts';

/**
 * @param fill the water that comes in
 * @param share of the pool let out first and then filled in, 0-1
 * @returns the mixed water, its temperature included
 */
export function replaceWater(water: Water, fill: Water, share: number): Water {
  if (!(share >= 0 && share <= 1)) throw new WaterError('bad-amount');
  const ours = contentsOf(water);
  const theirs = contentsOf(fill);
  const mixed = { ...ours };
  for (const name of Object.keys(ours)) {
    const key = name as keyof Contents;
    mixed[key] = (1 - share) * ours[key] + share * theirs[key];
  }
  return waterFrom(mixed, water.ph);
}

/** Readings that mix in proportion. */
export type MixingReading =
  | 'totalAlkalinity'
  | 'calciumHardness'
  | 'salt'
  | 'cyanuricAcid'
  | 'boron'
  | 'freeChlorine'
  | 'combinedChlorine'
  | 'sulfate';

/**
 * Share of the water to replace so that a reading comes down (or up) to a target.
 * @throws WaterError 'out-of-reach' when the fill water itself lies on this side of the target
 */
export function shareToReplace(water: Water, fill: Water, reading: MixingReading, target: number): number {
  const here = water[reading];
  const there = fill[reading];
  if (here === target) return 0;
  const share = (here - target) / (here - there);
  if (!(share >= 0 && share <= 1)) throw new WaterError('out-of-reach');
  return share;
}
