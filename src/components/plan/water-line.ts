/**
 * Where the water lies between etching and scaling: the pool's wall in section
 * is the axis itself, eaten away on the left and crusted on the right.
 */
import { svg, type SvgNode } from '../svg.ts';

export interface WaterLineData {
  /** Saturation index, and its span over the intervals of what went into it. */
  readonly index: number;
  readonly low: number;
  readonly high: number;
  readonly target: { readonly low: number; readonly high: number };
}

/** The index at the drawing's two ends; what lies beyond is held there. */
export const REACH = 1.2;
const WALL_EM = 3.6;
const HEIGHT_EM = 7.2;

/** Fraction of the width, 0 to 1. */
export function placeIndex(index: number): number {
  return 0.5 + Math.max(-REACH, Math.min(REACH, index)) / (2 * REACH);
}

/** @param description the text alternative */
export function drawWaterLine(data: WaterLineData, description: string): SvgNode {
  const { index, low, high, target } = data;
  return svg(
    'svg',
    { class: 'water-line', role: 'img', 'aria-label': description, width: '100%', height: em(HEIGHT_EM) },
    svg(
      'pattern',
      { id: 'water-line-hatch', width: 7, height: 7, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
      svg('path', { class: 'ground', d: 'M0 0V7' }),
    ),
    ...span(target),
    wall(),
    ...scaleMarks(),
    line('whisker', placeIndex(low), placeIndex(high), 1.1, 1.1),
    ...[low, high].map((end) => line('whisker', placeIndex(end), placeIndex(end), 0.8, 1.4)),
    svg(
      'svg',
      { x: percent(placeIndex(index)), y: em(0.9), width: '1em', height: em(2.7), viewBox: '0 0 16 43', class: 'mark' },
      svg('path', { class: 'stem', d: 'M0 6V40' }),
      svg('path', { class: 'caret', d: 'M-6.5 26C-3 27 3 27 6.5 26 4 32 2 36 0 42-2 36-4 32-6.5 26Z' }),
    ),
  );
}

function span({ low, high }: WaterLineData['target']): SvgNode[] {
  const [from, to] = [placeIndex(low), placeIndex(high)];
  const box = { x: percent(from), y: em(1.9), width: percent(to - from), height: em(WALL_EM - 1.9) };
  return [
    svg('rect', { ...box, fill: 'url(#water-line-hatch)' }),
    line('bracket', from, to, 1.9, 1.9),
    ...[from, to].map((end) => line('bracket', end, end, 1.9, WALL_EM - 0.15)),
  ];
}

function scaleMarks(): SvgNode[] {
  return [-1, -0.5, 0, 0.5, 1].flatMap((value) => {
    const at = percent(placeIndex(value));
    const text = value > 0 ? `+${value}` : String(value).replace('-', '−');
    return [svg('text', { class: 'label', x: at, y: em(HEIGHT_EM - 0.4), 'text-anchor': 'middle' }, text)];
  });
}

const WALL_WIDTH = 600;
const SURFACE = 26;
const SMOOTH = 0.3;

/** The wall in section: bitten away towards the left, crystals on it towards the right; hatched below, as ground is. */
function wall(): SvgNode {
  const outline = [`M0 ${SURFACE}`];
  const facets: string[] = [];
  let x = 0;
  for (let i = 0; x < WALL_WIDTH; i++) {
    const width = 17 + 11 * Math.abs(Math.sin(i * 2.3));
    const index = ((x + width / 2) / WALL_WIDTH - 0.5) * 2 * REACH;
    const strength = Math.min(1, Math.max(0, (Math.abs(index) - SMOOTH) / (REACH - SMOOTH)) ** 0.8);
    const size = strength * (0.55 + 0.45 * Math.sin(i * 1.7) ** 2);
    if (index < 0) outline.push(`q${r(width * 0.15)} ${r(26 * size)} ${r(width * 0.55)} ${r(24 * size)}`);
    if (index < 0) outline.push(`t${r(width * 0.45)} ${r(-24 * size)}`);
    else {
      const peak = width * (0.35 + 0.3 * Math.sin(i * 3.1) ** 2);
      outline.push(`l${r(peak)} ${r(-24 * size)}L${r(x + width)} ${SURFACE}`);
      if (size > 0.15) facets.push(`M${r(x + peak)} ${r(SURFACE - 24 * size)}l${r(width * 0.1)} ${r(17 * size)}`);
    }
    x += width;
  }
  const hatch = Array.from({ length: 58 }, (_, i) => `M${r(10.5 * i + 8)} 53l-9 9`);
  const frame = { x: 0, y: em(WALL_EM - 1.56), width: '100%', height: '3.9em', preserveAspectRatio: 'none' };
  return svg(
    'svg',
    { ...frame, viewBox: `0 0 ${WALL_WIDTH} 65` },
    svg('path', { class: 'ground', d: hatch.join('') + facets.join('') }),
    svg('path', { class: 'wall', d: outline.join('') }),
  );
}

function r(x: number): string {
  return x.toFixed(1);
}

function line(name: string, from: number, to: number, top: number, bottom: number): SvgNode {
  return svg('line', { class: name, x1: percent(from), x2: percent(to), y1: em(top), y2: em(bottom) });
}

function percent(fraction: number): string {
  return `${(fraction * 100).toFixed(2)}%`;
}

function em(size: number): string {
  return `${size.toFixed(2)}em`;
}
