/** Another photo of the same chart, usually in another light, for a scale that is there already. */
import { comparePrints } from '../card/print-mark.ts';
import { fitNeutrals } from '../colour/neutrals.ts';
import type { StripScale } from './schema.ts';
import { type TaughtPhoto, teachingOf } from './teach.ts';

/**
 * The scale's own blocks become the mean over all its photos. A photo beside another print of the card makes the scale
 * know that print too.
 * @param photo its blocks in the order of the scale's pads and their values
 * @throws RangeError when most greys of the card are clipped
 */
export function addPhoto(scale: StripScale, photo: TaughtPhoto): StripScale {
  const samePrint = scale.teachings.find(
    ({ cardVersion: version, printMark = null }) => comparePrints(photo.card, { version, printMark }) !== 'another',
  );
  const print = samePrint?.print ?? fitNeutrals(photo.card).print;
  const teachings = [...scale.teachings, teachingOf(photo, print)];
  return {
    ...scale,
    pads: scale.pads.map((pad, k) => ({
      ...pad,
      blocks: pad.blocks.map(({ value }, i) => ({
        value,
        lab: [0, 1, 2].map(
          (c) => teachings.reduce((sum, { blocks }) => sum + blocks[k]![i]![c]!, 0) / teachings.length,
        ) as [number, number, number],
      })),
    })),
    teachings,
  };
}
