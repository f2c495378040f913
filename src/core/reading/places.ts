/** Where on the card a doubt about its greys lies. */
import { NEUTRALS, PAPER_PATCHES, type Rect, SLOT } from '../card/geometry.ts';
import type { TintedGrey } from '../colour/neutrals.ts';
import type { Place } from './reading.ts';

const GREYS = new Map<string, Rect>([...NEUTRALS, ...PAPER_PATCHES].map((patch) => [patch.id, patch]));

/** One place a patch; the slot, which is sampled in several spots, is one. */
export function placesOf(code: Place['code'], greys: readonly TintedGrey[]): Place[] {
  const patches = new Set(greys.map(({ id }) => GREYS.get(id) ?? SLOT));
  return [...patches].map((patch) => ({ code, parameter: null, outline: outlineOf(patch) }));
}

function outlineOf({ xMm, yMm, widthMm, heightMm }: Rect): Place['outline'] {
  return [
    [xMm, yMm],
    [xMm + widthMm, yMm],
    [xMm + widthMm, yMm + heightMm],
    [xMm, yMm + heightMm],
  ];
}
