/** What the card lies on, as a texture: several kinds of procedural ground. */
import { randomFrom } from '../random.ts';
import { layered, makeNoise, type Noise } from './noise.ts';
import { reflectanceLike, type Palette } from './palette.ts';
import { type Ground, isSeen, type Seen } from './seen.ts';
import { newTexture, smoothstep, type Colour, type Texture } from './texture.ts';
import type { Table, TableKind } from './types.ts';

/** Share of the dark colour (0), the base (0.5) and the light one (1) at a place. */
type Pattern = (x: number, y: number) => number;

export function paintTable(
  table: Table,
  area: { x0Mm: number; y0Mm: number; widthMm: number; heightMm: number },
  pxPerMm: number,
  palette: Palette,
  seed: number,
  seenOf: (ground: Ground) => Seen | null = () => null,
): Texture {
  const shade = (factor: number): Colour =>
    palette.colourOf(
      reflectanceLike([
        Math.min(1, table.colour[0] * factor),
        Math.min(1, table.colour[1] * factor),
        Math.min(1, table.colour[2] * factor),
      ]),
    );
  const [dark, base, light] = [shade(0.62), shade(1), shade(1.28)];
  const texture = newTexture(area, pxPerMm, base, seenOf);
  const pattern = PATTERNS[table.kind](makeNoise(seed), seed);
  const turn = (table.turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const { widthPx, heightPx, channels, data, seen } = texture;
  for (let y = 0; y < heightPx; y++) {
    for (let x = 0; x < widthPx; x++) {
      if (seen && !isSeen(seen, x, y)) continue;
      const xMm = area.x0Mm + x / pxPerMm;
      const yMm = area.y0Mm + y / pxPerMm;
      const level = 2 * Math.min(1.3, Math.max(-0.35, pattern(cos * xMm + sin * yMm, cos * yMm - sin * xMm))) - 1;
      const towards = level < 0 ? dark : light;
      const share = Math.abs(level);
      const at = (y * widthPx + x) * channels;
      for (let c = 0; c < channels; c++) data[at + c] = Math.max(0.002, base[c]! + share * (towards[c]! - base[c]!));
    }
  }
  return texture;
}

const PATTERNS: Readonly<Record<TableKind, (noise: Noise, seed: number) => Pattern>> = {
  wood: (noise) => (x, y) => grain(noise, x, y),
  deck: (noise, seed) => boards(noise, seed, 92, 5),
  cloth: (noise) => (x, y) => {
    const weave = 0.5 * Math.sin(x * 5.2 + 0.6 * noise(x, y)) * Math.sin(y * 5.2 + 0.6 * noise(y, x));
    const check = (x - 31 * Math.floor(x / 31) < 9 ? 0.22 : 0) + (y - 31 * Math.floor(y / 31) < 9 ? 0.22 : 0);
    return 0.32 + 0.16 * weave + check + 0.12 * noise(x * 0.02, y * 0.02);
  },
  stone: (noise) => {
    const rough = layered(noise, 4);
    return (x, y) => {
      const fleck = noise(x * 0.9, y * 0.9);
      const dark = fleck > 0.62 ? -0.6 : fleck < -0.66 ? 0.55 : 0;
      return 0.5 + 0.35 * rough(x * 0.06, y * 0.06) + 0.28 * noise(x * 2.1, y * 2.1) + dark;
    };
  },
  tiles: (noise, seed) => {
    const tones = Array.from({ length: 97 }, (_, i) => randomFrom(seed + i).between(0.2, 0.9));
    return (x, y) => {
      const [column, row] = [Math.floor(x / 24), Math.floor(y / 24)];
      const grout = Math.min(x - 24 * column, 24 * (column + 1) - x, y - 24 * row, 24 * (row + 1) - y);
      const joint = 1.15 + 0.1 * noise(x, y);
      const tone = tones[Math.abs(column * 31 + row * 57) % tones.length]!;
      const glaze = tone + 0.12 * noise(x * 0.12, y * 0.12) + 0.04 * noise(x * 1.5, y * 1.5);
      return joint + smoothstep(grout, 0.9, 1.4) * (glaze - joint);
    };
  },
  plastic: (noise) => (x, y) => 0.5 + 0.05 * noise(x * 0.02, y * 0.02) + 0.06 * noise(x * 1.3, y * 1.3),
  concrete: (noise) => {
    const rough = layered(noise, 5);
    return (x, y) => {
      const pit = noise(x * 0.35 + 9, y * 0.35) > 0.74 ? -0.45 : 0;
      return 0.5 + 0.45 * rough(x * 0.03, y * 0.03) + 0.16 * noise(x * 1.4, y * 1.4) + pit;
    };
  },
};

/** Long fibres with a slow change of tone and darker year rings. */
function grain(noise: Noise, x: number, y: number): number {
  const wavy = y + 5 * noise(x * 0.006, y * 0.02) + 1.5 * noise(x * 0.03, y * 0.05);
  const rings = Math.sin(wavy * 0.55 + 2.5 * noise(x * 0.003, y * 0.03));
  const fibre = noise(x * 0.08, wavy * 2.2);
  const pores = noise(x * 0.25, wavy * 6) > 0.6 ? -0.25 : 0;
  return 0.5 + 0.16 * rings + 0.2 * fibre + pores + 0.15 * noise(x * 0.004, y * 0.01);
}

function boards(noise: Noise, seed: number, widthMm: number, gapMm: number): Pattern {
  const tones = Array.from({ length: 64 }, (_, i) => randomFrom(seed + 7 * i).between(-0.16, 0.16));
  return (x, y) => {
    const board = Math.floor(y / widthMm);
    const across = y - widthMm * board;
    const gap = smoothstep(Math.min(across, gapMm - across), -0.3, 0.3);
    const edge = Math.min(across - gapMm, widthMm - across);
    const worn = edge < 4 ? 0.12 * (1 - edge / 4) : 0;
    const top = grain(noise, x + 137 * board, y + 23 * board) + tones[Math.abs(board) % 64]! + worn;
    return top + gap * (-0.35 - top);
  };
}
