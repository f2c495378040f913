/** The card as a flat picture for screens and simulations. */
import sharp from 'sharp';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../core/card/geometry.ts';
import type { CardVariant } from '../core/card/geometry.ts';
import { cardSvgContent } from './card-svg.ts';

export const PX_PER_MM = 20;

/** sRGB, 20 px/mm, its resolution recorded. Greys are flat: halftone dots are the printer's affair. */
export async function cardPng(variant: CardVariant, mark: number): Promise<Buffer> {
  const width = CARD_WIDTH_MM * PX_PER_MM;
  const height = CARD_HEIGHT_MM * PX_PER_MM;
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${CARD_WIDTH_MM} ${CARD_HEIGHT_MM}">`,
    cardSvgContent(variant, mark),
    '</svg>',
  ].join('\n');
  return await sharp(Buffer.from(svg))
    .flatten({ background: '#fff' })
    .withMetadata({ density: PX_PER_MM * 25.4 })
    .png({ compressionLevel: 9 })
    .toBuffer();
}
