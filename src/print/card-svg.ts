/** The card as SVG, type drawn as outlines; a unit is a millimetre. */
import { drawCard } from '../core/card/drawing.ts';
import type { Box, Paint, Shape, Text } from '../core/card/drawing.ts';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../core/card/geometry.ts';
import type { CardVariant } from '../core/card/geometry.ts';
import { anchorShiftMm, setLine } from './typeface.ts';
import { CARD_WORDS } from '../words/card.ts';

/** A document of its own, at the card's true size. */
export function cardSvg(variant: CardVariant, mark: number): string {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${CARD_WIDTH_MM}mm" height="${CARD_HEIGHT_MM}mm" viewBox="0 0 ${CARD_WIDTH_MM} ${CARD_HEIGHT_MM}">`,
    `<title>Dipwise card, ${variant === 'black' ? 'black only' : 'colour'}</title>`,
    cardSvgContent(variant, mark),
    '</svg>\n',
  ].join('\n');
}

/** The drawing without its `<svg>`, to put inside another. Ids in it start with the variant's name. */
export function cardSvgContent(variant: CardVariant, mark: number): string {
  const glyphs = new Map<string, string>();
  const shapes = drawCard(variant, mark, CARD_WORDS).map((shape) => shapeMarkup(shape, variant, glyphs));
  const paper = `<path fill="#fff" d="${boxPath({ xMm: 0, yMm: 0, widthMm: CARD_WIDTH_MM, heightMm: CARD_HEIGHT_MM })}"/>`;
  return [`<defs>${[...glyphs.values()].join('')}</defs>`, paper, ...shapes].join('\n');
}

function shapeMarkup(shape: Shape, variant: CardVariant, glyphs: Map<string, string>): string {
  if (shape.kind === 'text') return textMarkup(shape, variant, glyphs);
  if (shape.kind === 'disc') {
    return `<circle cx="${mm(shape.xMm)}" cy="${mm(shape.yMm)}" r="${mm(shape.diameterMm / 2)}" fill="${colour(shape.paint)}"/>`;
  }
  return `<path fill="${colour(shape.paint)}" d="${shape.boxes.map(boxPath).join('')}"/>`;
}

function textMarkup(shape: Text, variant: CardVariant, glyphs: Map<string, string>): string {
  const line = setLine(shape);
  const left = anchorShiftMm(shape.anchor, line.widthMm);
  const uses = line.glyphs.flatMap(({ id, outline, xMm }) => {
    if (!outline) return [];
    const name = `${variant}-${shape.weight}-${id}`;
    glyphs.set(name, `<path id="${name}" d="${outline}"/>`);
    return `<use href="#${name}" x="${Math.round((xMm - left) / line.unitMm)}"/>`;
  });
  const turn = shape.turnDegrees === 0 ? '' : ` rotate(${shape.turnDegrees})`;
  const scale = mm(line.unitMm, 6);
  return `<g transform="translate(${mm(shape.xMm)} ${mm(shape.yMm)})${turn} scale(${scale} -${scale})">${uses.join('')}</g>`;
}

function boxPath({ xMm, yMm, widthMm, heightMm }: Box): string {
  return `M${mm(xMm)} ${mm(yMm)}h${mm(widthMm)}v${mm(heightMm)}h${mm(-widthMm)}z`;
}

/**
 * On a screen, ink becomes the sRGB grey that PDF viewers show for DeviceGray: the encoded level is
 * one minus the coverage. It is a picture of the file, not of the print: real paper is dimmer than
 * white, solid ink lighter than black, and halftone dots spread.
 */
function colour(paint: Paint): string {
  const levels = 'ink' in paint ? [1 - paint.ink, 1 - paint.ink, 1 - paint.ink] : paint.srgb;
  return `#${levels
    .map((level) =>
      Math.round(level * 255)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}

function mm(value: number, digits = 3): string {
  return String(Number(value.toFixed(digits)));
}
