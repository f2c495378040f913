/**
 * How unlike two photos' lights are, told apart from how unlike their phones are.
 *
 * After the greys, another light turns all hues one way: under a lamp reds become yellower and blues redder. A phone's own
 * rendering turns some hues one way and some the other, so that over all patches little is left of it. On real photos of a
 * chart (`test/reference/real-chart-photos.csv`): three phones in one light 0.1 to 1.5 degrees, on carpet against on desk 3.5,
 * lamps against daylight 5.9 and 9.5.
 */
import type { Pair } from './anchors.ts';
import { linearToCompressed } from './compressed.ts';

/** @returns degrees by which the patches' hues have turned together, from red towards yellow, least squares over a* and b* */
export function hueTurn(anchors: readonly Pair[]): number {
  let across = 0;
  let chroma = 0;
  for (const { from, to } of anchors) {
    const [, a, b] = linearToCompressed(to);
    const [, nowA, nowB] = linearToCompressed(from);
    across += a * (nowB - b) - b * (nowA - a);
    chroma += a * a + b * b;
  }
  return chroma > 0 ? (across / chroma) * (180 / Math.PI) : 0;
}
