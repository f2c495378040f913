/** What the scales page says about scales. */
import { quantityTitle } from './quantities.ts';
import { neighboursByEye } from '../core/scale/by-eye.ts';
import type { StripScale } from '../core/scale/schema.ts';
import { DEFICIENCIES } from '../core/colour/vision.ts';
import { countText } from './grammar.ts';
import { formatValue } from './numbers.ts';

/** Pads, times and lights of a scale in one line. */
export function scaleFacts({ pads, dipSeconds, readAfterSeconds, readBeforeSeconds, teachings }: StripScale): string {
  const names = pads.map(({ parameter }) => quantityTitle(parameter)).join(', ');
  const times = `Dip ${formatValue(dipSeconds)} s, read from ${formatValue(readAfterSeconds)} to ${formatValue(readBeforeSeconds)} s.`;
  return [`${names}.`, times, taughtIn(teachings)].filter(Boolean).join(' ');
}

function taughtIn(teachings: StripScale['teachings']): string {
  if (teachings.length === 0) return '';
  const lights = teachings.map(({ light }) => light).filter((light) => light !== '');
  const photos = countText(teachings.length, 'photo', 'photos');
  return lights.length > 0 ? `Taught from ${photos}: ${lights.join('; ')}.` : `Taught from ${photos}.`;
}

/** Neighbouring blocks that look alike to full colour vision and to each deficiency at full strength. */
export function byEyeNotes(scale: StripScale): string[] {
  return scale.pads.flatMap((pad) => {
    const alike = [null, ...DEFICIENCIES].flatMap((deficiency) => {
      const pairs = neighboursByEye(pad, deficiency && { deficiency, strength: 1 })
        .filter(({ verdict }) => verdict === 'same')
        .map(({ from, to }) => `${formatValue(from)} and ${formatValue(to)}`);
      return pairs.length > 0
        ? [`${pairs.join(', ')} ${deficiency ? `with ${deficiency} vision` : 'to every eye'}`]
        : [];
    });
    return alike.length > 0 ? [`${quantityTitle(pad.parameter)}: ${alike.join('; ')}.`] : [];
  });
}
