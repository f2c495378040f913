/** The flattened card as a picture within the page, its pads outlined and numbered. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../core/card/geometry.ts';
import { mean } from '../../core/math/average.ts';
import type { PadReading } from '../../core/reading/reading.ts';
import { html, type Html } from './html.ts';

/** Of a number's middle above the pad, mm. */
const NUMBER_MM = 4.4;

/** @param jpeg of the card */
export function drawnCard(jpeg: Uint8Array, pads: readonly Pick<PadReading, 'outline'>[], alt: string): Html {
  const source = `data:image/jpeg;base64,${Buffer.from(jpeg).toString('base64')}`;
  const outlines = pads.map(({ outline }, i) => {
    const points = outline.map(([x, y]) => `${x.toFixed(2)},${y.toFixed(2)}`).join(' ');
    const x = mean(outline.map((corner) => corner[0])).toFixed(2);
    const y = (Math.min(...outline.map((corner) => corner[1])) - NUMBER_MM).toFixed(2);
    return html`<polygon points="${points}" /><circle cx="${x}" cy="${y}" r="3.1" /><text
        x="${x}"
        y="${(Number(y) + 1.5).toFixed(2)}"
        >${i + 1}</text
      >`;
  });
  return html`<figure>
    <img src="${source}" alt="${alt}" /><svg viewBox="0 0 ${CARD_WIDTH_MM} ${CARD_HEIGHT_MM}" aria-hidden="true">
      ${outlines}
    </svg>
  </figure>`;
}
