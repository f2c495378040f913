/** Things that lie about beside the card; several of them have corners and black squares of their own. */
import { randomFrom, type Random } from '../random.ts';
import { calendarPage, matrixCode, type Painter } from './printed-matter.ts';
import { spectrumOf } from '../spectra/wavelengths.ts';
import { reflectanceLike, type Palette } from './palette.ts';
import {
  cover,
  depthInside,
  eachTexel,
  edgeShare,
  multiply,
  smoothstep,
  type Colour,
  type Texture,
  type Turned,
} from './texture.ts';
import type { Clutter, Illumination } from './types.ts';

export function layClutter(
  texture: Texture,
  things: readonly Clutter[],
  light: Illumination,
  palette: Palette,
  seed: number,
): void {
  things.forEach((thing, i) => {
    const shape: Turned = { ...thing, radiusMm: radiusOf(thing) };
    shadowOf(texture, shape, light, heightOf(thing));
    const paint = painter(thing, palette, randomFrom(seed).fork(`thing ${i}`));
    eachTexel(texture, shape, 1, (index, u, v, depthMm) => {
      const share = edgeShare(texture, depthMm);
      if (share > 0) cover(texture, index, paint(u, v, depthMm), share);
    });
  });
}

function radiusOf({ kind, widthMm, heightMm }: Clutter): number {
  const round = kind === 'coin' || kind === 'lid' || kind === 'pen' || kind === 'leaf';
  return round ? Math.min(widthMm, heightMm) / 2 : kind === 'towel' ? 3 : 0.8;
}

function heightOf({ kind }: Clutter): number {
  return {
    book: 14,
    lid: 12,
    pen: 6,
    towel: 8,
    frame: 5,
    coin: 2,
    checker: 1,
    leaflet: 0.5,
    leaf: 1,
    code: 0.5,
    calendar: 0.5,
  }[kind];
}

/** A soft shadow of something of a height, mm, away from the light. */
export function shadowOf(texture: Texture, shape: Turned, light: Illumination, heightMm: number): void {
  const angle = ((light.fromDegrees + 180 - shape.turnDegrees) * Math.PI) / 180;
  const reach = heightMm * 0.8;
  const [du, dv] = [reach * Math.cos(angle), reach * Math.sin(angle)];
  const blurMm = 0.4 + heightMm * (1.2 - light.softness) * 0.6;
  eachTexel(texture, shape, reach + blurMm + 3, (index, u, v, depthMm) => {
    const inside = depthInside(u - du, v - dv, shape.widthMm, shape.heightMm, shape.radiusMm);
    const cast = (0.2 + 0.4 * light.softness) * smoothstep(inside, -blurMm, blurMm);
    const contact = 0.35 * smoothstep(depthMm, -1 - 0.2 * heightMm, 0);
    multiply(texture, index, (1 - cast) * (1 - contact));
  });
}

function painter(thing: Clutter, palette: Palette, random: Random): Painter {
  const tone = (factor: number) =>
    palette.colourOf(
      reflectanceLike(thing.colour.map((value) => Math.min(1, value * factor)) as [number, number, number]),
    );
  const [base, dark, bright] = [tone(1), tone(0.55), tone(1.2)];
  const black = palette.colourOf(spectrumOf(() => 0.04));
  const white = palette.colourOf(spectrumOf(() => 0.82));
  const { widthMm, heightMm } = thing;
  switch (thing.kind) {
    case 'book':
      return (u, v, depth) => (depth < 3 ? dark : inTitle(u, v, widthMm, heightMm) ? bright : base);
    case 'leaflet':
      return textPage(thing, random, { paper: white, ink: black, band: base });
    case 'checker':
      return (u, v) => ((Math.floor(u / 9 + 100) + Math.floor(v / 9 + 100)) % 2 === 0 ? black : white);
    case 'code':
      return matrixCode(thing, random, { paper: white, ink: black });
    case 'calendar':
      return calendarPage(thing, random, { paper: white, ink: black, band: base });
    case 'frame':
      return (_u, _v, depth) => (depth < 2 ? white : depth < 6 ? black : depth < 9 ? white : base);
    case 'coin':
      return (_u, _v, depth) => (depth < 1 ? dark : depth < 1.6 ? bright : base);
    case 'lid':
      return (_u, _v, depth) => (depth < 2 ? dark : depth < 3 ? bright : base);
    case 'pen':
      return (u, v) => (u > 0.32 * widthMm ? dark : Math.abs(v) < 0.12 * heightMm ? bright : base);
    case 'towel':
      return (u) => (Math.floor(u / 14 + 100) % 3 === 0 ? bright : base);
    case 'leaf':
      return (_u, v) => (Math.abs(v) < 0.4 ? bright : base);
  }
}

function inTitle(u: number, v: number, widthMm: number, heightMm: number): boolean {
  return Math.abs(u) < 0.3 * widthMm && Math.abs(v + 0.15 * heightMm) < 0.07 * heightMm;
}

/** Lines of words: short dark dashes of uneven length under a coloured band. */
function textPage(
  { widthMm, heightMm }: Clutter,
  random: Random,
  { paper, ink, band }: Record<'paper' | 'ink' | 'band', Colour>,
): Painter {
  const pitchMm = 4;
  const rows = Array.from({ length: Math.ceil(heightMm / pitchMm) + 1 }, () => {
    const starts: number[] = [];
    let at = 6;
    while (at < widthMm - 8) {
      const length = random.between(3, 11);
      if (at + length < widthMm - 6) starts.push(at, at + length);
      at += length + 1.4;
    }
    return random.chance(0.12) ? [] : starts;
  });
  return (u, v) => {
    const y = v + heightMm / 2;
    if (y > 5 && y < 14 && Math.abs(u) < 0.4 * widthMm) return band;
    if (y < 18 || y > heightMm - 5) return paper;
    const row = rows[Math.floor(y / pitchMm)] ?? [];
    if (y % pitchMm > 1.5) return paper;
    const x = u + widthMm / 2;
    for (let i = 0; i < row.length; i += 2) if (x > row[i]! && x < row[i + 1]!) return ink;
    return paper;
  };
}
