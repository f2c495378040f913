/** Why a reading is an interval: a pad's colour on its scale, with a doubt about the colour. */
import { placeOnCurve } from '../../core/reading/place.ts';
import { curveThrough } from '../../core/scale/curve.ts';
import { drawRibbon } from '../ribbon/drawing.ts';
import { END_MARGIN } from '../ribbon/ribbon.ts';
import type { Control, Instrument, Settings } from './instrument.ts';
import { numberText } from '../../words/numbers.ts';
import { PRACTICE_PAD } from './practice-pad.ts';

export const controls: readonly Control[] = [
  { name: 'place', label: 'The pad’s colour, along the scale', unit: '%', min: 0, max: 100, step: 1, start: 58 },
  { name: 'doubt', label: 'Doubt about the colour', unit: '', min: 0.2, max: 4, step: 0.1, start: 2 },
];

const curve = curveThrough(PRACTICE_PAD);

export const intervalAlongScale: Instrument = {
  controls,
  show(settings) {
    const { gap, best, alternative, offScale } = placementOf(settings);
    const at = (value: number) => numberText(value, { decimals: 1 });
    const width = `A doubt of ${at(settings['doubt']!)} in colour, where the blocks beside it are ${at(gap)} apart, is a width of ${at(best.high - best.low)} in pH.`;
    const second = alternative
      ? ` Or ${at(alternative.low)} to ${at(alternative.high)}: the scale comes near itself.`
      : '';
    const answer = `pH ${at(best.value)}, likely ${at(best.low)} to ${at(best.high)}.${second} ${width}`;
    const estimates = alternative ? [best, alternative] : [best];
    return { picture: drawRibbon({ pad: PRACTICE_PAD, target: null, estimates, offScale }, answer), answer };
  },
  drag: { axes: 'x', to: (x) => ({ place: (100 * (x - END_MARGIN)) / (1 - 2 * END_MARGIN) }) },
};

/** Blocks lie evenly along the ribbon; between them the colour runs along the curve. */
function colourAt(fraction: number) {
  const { positions } = curve;
  const along = fraction * (positions.length - 1);
  const i = Math.min(Math.floor(along), positions.length - 2);
  const gap = positions[i + 1]! - positions[i]!;
  return { lab: curve.labAt(positions[i]! + (along - i) * gap), gap };
}

export function placementOf(settings: Settings) {
  const { lab, gap } = colourAt(settings['place']! / 100);
  return { gap, ...placeOnCurve(lab, curve, settings['doubt']!) };
}
