/** Under a refused photo: the scales of the shelf that its strip fits, where the chosen one doesn't. */
import { decodePhoto } from '../../browser/decode.ts';
import type { VisionClient } from '../../browser/worker-client.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { h } from '../dom.ts';

/** Each costs a reading. */
const MAX_TRIED = 6;

/**
 * @param onChosen reads the photo with a scale that fits
 * @returns a place that fills once a scale is found to fit; it stays empty where none does, or the signal aborts
 */
export function otherScales(
  photo: Blob,
  scales: readonly StripScale[],
  client: VisionClient,
  signal: AbortSignal,
  onChosen: (scale: StripScale) => void,
): HTMLElement {
  const place = h('div', { role: 'status', class: 'other-scales' });
  const tryAll = async () => {
    for (const scale of scales.slice(0, MAX_TRIED)) {
      const decoded = await decodePhoto(photo);
      if (!decoded.ok) return;
      if (signal.aborted) return decoded.picture.close();
      const { reading } = await client.read(decoded.picture, scale, () => undefined, signal);
      if (reading.outcome !== 'read') continue;
      const button = h('button', { type: 'button' }, 'Read it with that scale');
      button.addEventListener('click', () => onChosen(scale));
      place.append(h('p', {}, 'Its pads lie as on ', h('q', {}, h('bdi', {}, scale.name)), '. ', button));
    }
  };
  tryAll().catch((error: unknown) => {
    if (!signal.aborted) console.info('Other scales not tried:', error);
  });
  return place;
}
