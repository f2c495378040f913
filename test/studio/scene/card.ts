/** The printed card as a texture of material colours. */
import { drawCard, type Paint, type Shape } from '../../../src/core/card/drawing.ts';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, VERSION_CELLS, versionBits } from '../../../src/core/card/geometry.ts';
import { paperUnder, printed, separate, type Coverage } from '../spectra/inks.ts';
import { makeNoise } from './noise.ts';
import type { Palette } from './palette.ts';
import {
  cover,
  coverBoxes,
  depthInside,
  eachTexel,
  edgeShare,
  newTexture,
  roughen,
  type Colour,
  type Texture,
} from './texture.ts';
import { coverTexts } from './type.ts';
import type { PrintedCard } from './types.ts';
import { CARD_WORDS } from '../../../src/words/card.ts';

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
  const shapes = drawCard(card.variant, card.mark ?? null, CARD_WORDS);
  for (const shape of shapes.map((one) => asPrinted(one, card))) {
    if (shape.kind === 'text') continue;
    const colour = inkColour(shape.paint);
    if (shape.kind === 'boxes') coverBoxes(texture, shape.boxes, colour);
    else coverDisc(texture, shape, colour);
  }
  const texts = shapes.filter((shape) => shape.kind === 'text');
  await coverTexts(texture, texts, inkColour({ ink: 1 }));
  roughen(texture, card.mottle, makeNoise(seed));
  return texture;
}

/** A card of another version tells so by its code. */
function asPrinted(shape: Shape, { version, variant }: PrintedCard): Shape {
  if (version === undefined || shape.kind !== 'boxes' || shape.part !== 'version') return shape;
  const bits = versionBits(version, variant);
  return { ...shape, boxes: VERSION_CELLS.filter((_, i) => bits[i]) };
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
