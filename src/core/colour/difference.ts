import { differenceCiede2000 } from 'culori/fn';
import './lab.ts';
import type { Triple } from './lab.ts';

const difference = differenceCiede2000();

/**
 * CIEDE2000 colour difference of two Lab D65 colours, kL = kC = kH = 1
 * (Sharma, Wu & Dalal 2005). culori computes it from D65 Lab: give it nothing else.
 */
export function ciede2000(one: Triple, two: Triple): number {
  return difference(
    { mode: 'lab65', l: one[0], a: one[1], b: one[2] },
    { mode: 'lab65', l: two[0], a: two[1], b: two[2] },
  );
}
