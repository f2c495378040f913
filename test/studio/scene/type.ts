/** Black type on a texture, by the same outlines that printing uses. */
import sharp from 'sharp';
import type { Text } from '../../../src/core/card/drawing.ts';
import { anchorShiftMm, setLine } from '../../../src/print/typeface.ts';
import { cover, type Colour, type Texture } from './texture.ts';

export type Lettering = Omit<Text, 'part' | 'kind'>;

export async function coverTexts(texture: Texture, texts: readonly Lettering[], black: Colour): Promise<void> {
  const { widthPx, heightPx, pxPerMm } = texture;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}"><rect width="100%" height="100%" fill="#fff"/><g transform="scale(${pxPerMm}) translate(${-texture.x0Mm} ${-texture.y0Mm})">${texts.map(outlines).join('')}</g></svg>`;
  const mask = await sharp(Buffer.from(svg)).greyscale().raw().toBuffer();
  for (let i = 0; i < widthPx * heightPx; i++) if (mask[i]! < 255) cover(texture, i, black, 1 - mask[i]! / 255);
}

function outlines(text: Lettering): string {
  const line = setLine(text);
  const left = anchorShiftMm(text.anchor, line.widthMm);
  const glyphs = line.glyphs.map(
    ({ outline, xMm }) => `<path transform="translate(${(xMm - left) / line.unitMm} 0)" d="${outline}"/>`,
  );
  return `<g transform="translate(${text.xMm} ${text.yMm}) rotate(${text.turnDegrees}) scale(${line.unitMm} ${-line.unitMm})">${glyphs.join('')}</g>`;
}
