/** The printed card as a texture of material colours. */
import sharp from 'sharp';
import { drawCard, type Paint, type Text } from '../../../src/core/card/drawing.ts';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, type CardVariant } from '../../../src/core/card/geometry.ts';
import { anchorShiftMm, setLine } from '../../../src/print/typeface.ts';
import { paperUnder, printed, separate, type Coverage } from '../spectra/inks.ts';
import { makeNoise } from './noise.ts';
import type { Palette } from './palette.ts';
import {
  cover,
  coverBoxes,
  depthInside,
  eachTexel,
  edgeShare,
  multiply,
  newTexture,
  type Colour,
  type Texture,
} from './texture.ts';
import type { PrintedCard } from './types.ts';

/** The piece of paper as cut, mm on the card. */
export function cutEdges({ marginMm: [left, top, right, bottom] }: PrintedCard) {
  return { x0Mm: -left, y0Mm: -top, widthMm: CARD_WIDTH_MM + left + right, heightMm: CARD_HEIGHT_MM + top + bottom };
}

export async function paintCard(card: PrintedCard, palette: Palette, pxPerMm: number, seed: number): Promise<Texture> {
  const inkColour = (paint: Paint): Colour => {
    const coverage = coverageOf(paint, card);
    return palette.colourOf((light) => printed(coverage, card.printer, paperUnder(card.paper, light)));
  };
  const texture = newTexture(cutEdges(card), pxPerMm, inkColour({ ink: 0 }));
  for (const shape of drawCard(card.variant)) {
    if (shape.kind === 'text') continue;
    const colour = inkColour(shape.paint);
    if (shape.kind === 'boxes') coverBoxes(texture, shape.boxes, colour);
    else coverDisc(texture, shape, colour);
  }
  await coverTexts(texture, card.variant, inkColour({ ink: 1 }));
  roughen(texture, card.mottle, seed);
  return texture;
}

function coverageOf(paint: Paint, card: PrintedCard): Coverage {
  if ('srgb' in paint) return separate(paint.srgb);
  if (card.printer.greys === 'black' || paint.ink === 0) return [0, 0, 0, paint.ink];
  const grey = 1 - 0.9 * paint.ink;
  return separate([grey, grey, grey]);
}

function coverDisc(texture: Texture, disc: { xMm: number; yMm: number; diameterMm: number }, colour: Colour): void {
  const size = disc.diameterMm;
  const shape = { ...disc, widthMm: size, heightMm: size, turnDegrees: 0, radiusMm: size / 2 };
  eachTexel(texture, shape, 1 / texture.pxPerMm, (index, u, v) => {
    cover(texture, index, colour, edgeShare(texture, depthInside(u, v, size, size, size / 2)));
  });
}

/** Type is drawn by the same outlines that printing uses. */
async function coverTexts(texture: Texture, variant: CardVariant, black: Colour): Promise<void> {
  const texts = drawCard(variant).filter((shape) => shape.kind === 'text');
  const { widthPx, heightPx, pxPerMm } = texture;
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}"><rect width="100%" height="100%" fill="#fff"/><g transform="scale(${pxPerMm}) translate(${-texture.x0Mm} ${-texture.y0Mm})">${texts.map(outlines).join('')}</g></svg>`;
  const mask = await sharp(Buffer.from(svg)).greyscale().raw().toBuffer();
  for (let i = 0; i < widthPx * heightPx; i++) if (mask[i]! < 255) cover(texture, i, black, 1 - mask[i]! / 255);
}

function outlines(text: Text): string {
  const line = setLine(text);
  const left = anchorShiftMm(text.anchor, line.widthMm);
  const glyphs = line.glyphs.map(
    ({ outline, xMm }) => `<path transform="translate(${(xMm - left) / line.unitMm} 0)" d="${outline}"/>`,
  );
  return `<g transform="translate(${text.xMm} ${text.yMm}) rotate(${text.turnDegrees}) scale(${line.unitMm} ${-line.unitMm})">${glyphs.join('')}</g>`;
}

/** Paper grain everywhere, and the fine and coarse unevenness of the print. */
function roughen(texture: Texture, mottle: number, seed: number): void {
  const noise = makeNoise(seed);
  const { widthPx, heightPx, pxPerMm } = texture;
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      const [xMm, yMm] = [x / pxPerMm, y / pxPerMm];
      const fine = noise(xMm * 7, yMm * 7);
      const coarse = noise(xMm * 0.35 + 50, yMm * 0.35);
      multiply(texture, y * widthPx + x, 1 + mottle * (fine + 0.5 * coarse));
    }
  }
}
