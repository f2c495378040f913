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

/**
 * The three terms of CIEDE2000 apart: lightness, chroma and hue difference of `two` against `one`, each divided by
 * its weighting function. Their sum of squares is the squared difference less its rotation term, which matters
 * only among saturated blues. For least squares, where a vector is needed.
 */
export function ciede2000Terms(one: Triple, two: Triple): Triple {
  const meanChroma = (Math.hypot(one[1], one[2]) + Math.hypot(two[1], two[2])) / 2;
  const c7 = meanChroma ** 7;
  const g = 0.5 * (1 - Math.sqrt(c7 / (c7 + 25 ** 7)));
  const [a1, a2] = [one[1] * (1 + g), two[1] * (1 + g)];
  const [c1, c2] = [Math.hypot(a1, one[2]), Math.hypot(a2, two[2])];
  const [x, y] = [a1 * a2 + one[2] * two[2], a1 * two[2] - a2 * one[2]];
  const deltaHue = 2 * Math.sqrt(c1 * c2) * Math.sin(Math.atan2(y, x) / 2);
  const h = Math.atan2(one[2] / (c1 || 1) + two[2] / (c2 || 1), a1 / (c1 || 1) + a2 / (c2 || 1));
  const t =
    1 -
    0.17 * Math.cos(h - Math.PI / 6) +
    0.24 * Math.cos(2 * h) +
    0.32 * Math.cos(3 * h + Math.PI / 30) -
    0.2 * Math.cos(4 * h - (63 * Math.PI) / 180);
  const chroma = (c1 + c2) / 2;
  const l50 = ((one[0] + two[0]) / 2 - 50) ** 2;
  return [
    (two[0] - one[0]) / (1 + (0.015 * l50) / Math.sqrt(20 + l50)),
    (c2 - c1) / (1 + 0.045 * chroma),
    deltaHue / (1 + 0.015 * chroma * t),
  ];
}
