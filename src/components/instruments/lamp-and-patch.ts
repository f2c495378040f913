/** What a lamp and a phone do to a pad's colour, and what the card's greys take off again. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, NEUTRALS, SLOT } from '../../core/card/geometry.ts';
import { ciede2000 } from '../../core/colour/difference.ts';
import { decodeSrgb, labToLinear, labToSrgb, linearToLab, type Triple } from '../../core/colour/lab.ts';
import { fitNeutrals } from '../../core/colour/neutrals.ts';
import { placeOnCurve } from '../../core/reading/place.ts';
import { curveThrough } from '../../core/scale/curve.ts';
import { svg, type SvgNode } from '../svg.ts';
import { text } from './chart.ts';
import type { Control, Instrument } from './instrument.ts';
import { PRACTICE_PAD } from './practice-pad.ts';
import { numberText } from '../../words/numbers.ts';
import { photograph, photographCard, type Lamp } from './toy-camera.ts';

export const controls: readonly Control[] = [
  { name: 'kelvin', label: 'Light', unit: 'K', min: 2500, max: 9000, step: 100, start: 3000 },
  { name: 'x', label: 'Lamp, to the right', unit: 'mm', min: -40, max: 165, step: 5, start: 20 },
  { name: 'y', label: 'Lamp, to the front', unit: 'mm', min: -40, max: 125, step: 5, start: -15 },
];

const curve = curveThrough(PRACTICE_PAD);
/** The pad is a mid-scale block, so that its true value is known. */
const BLOCK = PRACTICE_PAD.blocks[Math.floor(PRACTICE_PAD.blocks.length / 2)]!;
const PAD = { xMm: SLOT.xMm + 42, yMm: SLOT.yMm + SLOT.heightMm / 2, sizeMm: 6 } as const;
const DOUBT = 1;

export const lampAndPatch: Instrument = {
  controls,
  show(settings) {
    const lamp: Lamp = { kelvin: settings['kelvin']!, xMm: settings['x']!, yMm: settings['y']! };
    const seen = look(lamp);
    const answer = answerOf(seen);
    return { picture: picture(lamp, seen, answer), answer };
  },
  drag: { axes: 'xy', to: (x, y) => ({ x: (400 * x - CARD.left) / CARD.scale, y: (230 * y - CARD.top) / CARD.scale }) },
};

export function look(lamp: Lamp) {
  const card = photographCard(lamp);
  const photo = photograph(labToLinear(BLOCK.lab), PAD.xMm, PAD.yMm, lamp);
  const raw = linearToLab([decodeSrgb(photo[0]), decodeSrgb(photo[1]), decodeSrgb(photo[2])]);
  const corrected = linearToLab(fitNeutrals(card).toLinear(photo, PAD.xMm, PAD.yMm));
  const seen = (lab: Triple) => {
    const { matched, best } = placeOnCurve(lab, curve, DOUBT);
    return { lab, off: ciede2000(lab, BLOCK.lab), value: matched ? best.value : null };
  };
  return { card, truth: BLOCK.value, raw: seen(raw), corrected: seen(corrected) };
}

type Look = ReturnType<typeof look>;

function answerOf({ raw, corrected, truth }: Look): string {
  return (
    `The pad is pH ${truth}. Its colour in the photo is ${numberText(raw.off, { decimals: 1 })} off: ${readAs(raw.value)}. ` +
    `Corrected by the greys it is ${numberText(corrected.off, { decimals: 1 })} off: ${readAs(corrected.value)}.`
  );
}

function readAs(value: number | null): string {
  return value === null ? 'near no part of the scale' : `it would be read as ${numberText(value, { decimals: 1 })}`;
}

const CARD = { left: 52, top: 62, scale: 1.3 } as const;

function picture(lamp: Lamp, { card, raw, corrected, truth }: Look, label: string): SvgNode {
  const x = (mm: number) => CARD.left + CARD.scale * mm;
  const y = (mm: number) => CARD.top + CARD.scale * mm;
  const box = (xMm: number, yMm: number, widthMm: number, heightMm: number, more: Record<string, string>) =>
    svg('rect', {
      x: x(xMm).toFixed(1),
      y: y(yMm).toFixed(1),
      width: (CARD.scale * widthMm).toFixed(1),
      height: (CARD.scale * heightMm).toFixed(1),
      ...more,
    });
  const colourOf = new Map(card.neutrals.map(({ id, rgb }) => [id, hex(rgb)]));
  return svg(
    'svg',
    { class: 'drawing chart', viewBox: '0 0 400 230', role: 'img', 'aria-label': label },
    box(0, 0, CARD_WIDTH_MM, CARD_HEIGHT_MM, { fill: hex(card.paper[1]!.rgb) }),
    ...NEUTRALS.map(({ id, xMm, yMm, widthMm, heightMm }) =>
      box(xMm, yMm, widthMm, heightMm, { fill: colourOf.get(id)!, class: 'bare' }),
    ),
    box(SLOT.xMm, SLOT.yMm, SLOT.widthMm, SLOT.heightMm, { fill: hex(card.slot[0]!.rgb), class: 'bare' }),
    box(PAD.xMm - PAD.sizeMm / 2, PAD.yMm - PAD.sizeMm / 2, PAD.sizeMm, PAD.sizeMm, { fill: hex(labToSrgb(raw.lab)) }),
    ...lampDrawing(x(lamp.xMm), y(lamp.yMm)),
    ...swatch(20, 'in the photo', raw.lab, raw.value),
    ...swatch(92, 'corrected', corrected.lab, corrected.value),
    ...swatch(164, 'in truth', BLOCK.lab, truth),
  );
}

function lampDrawing(x: number, y: number): SvgNode[] {
  const rays = Array.from({ length: 8 }, (_, i) => {
    const angle = (Math.PI * i) / 4;
    const at = (r: number) => `${(x + r * Math.cos(angle)).toFixed(1)} ${(y + r * Math.sin(angle)).toFixed(1)}`;
    return `M${at(11)}L${at(16)}`;
  });
  return [
    svg('circle', { class: 'lamp', cx: x.toFixed(1), cy: y.toFixed(1), r: 8 }),
    svg('path', { class: 'accent', d: rays.join('') }),
  ];
}

function swatch(top: number, name: string, lab: Triple, value: number | null): SvgNode[] {
  return [
    svg('rect', { x: 300, y: top, width: 84, height: 30, fill: hex(labToSrgb(lab)), class: 'thin' }),
    text(300, top + 45, `${name}: ${value === null ? '?' : numberText(value, { decimals: 1 })}`, 'start'),
  ];
}

function hex(rgb: readonly number[]): string {
  const two = (x: number) =>
    Math.round(255 * Math.min(1, Math.max(0, x)))
      .toString(16)
      .padStart(2, '0');
  return `#${rgb.map(two).join('')}`;
}
