/** The ribbon as a drawing. Widths are in per cent and heights in em, so that it follows both the page and the text. */
import { formatValue } from '../../words/numbers.ts';
import { svg, toElement, type SvgNode } from '../svg.ts';
import { layoutRibbon, type PlacedEstimate, type RibbonData, type RibbonLayout } from './ribbon.ts';

const BAND_TOP_EM = 1.35;
const BAND_HEIGHT_EM = 1.3;
const BAND_BOTTOM_EM = BAND_TOP_EM + BAND_HEIGHT_EM;
const TARGET_HEIGHT_EM = 0.55;
const LABEL_EM = BAND_BOTTOM_EM + TARGET_HEIGHT_EM + 1.15;
const HEIGHT_EM = LABEL_EM + 0.35;

/** Drawings made at build time and in the page stand in one document: their ids must not meet. */
const ORIGIN = typeof document === 'undefined' ? 'built' : 'drawn';
let drawn = 0;

/** `description` is the text alternative; it says everything the drawing does. */
export function drawRibbon(data: RibbonData, description: string): SvgNode {
  const layout = layoutRibbon(data);
  drawn += 1;
  const id = `ribbon-${ORIGIN}-${drawn}`;
  return svg(
    'svg',
    { class: 'ribbon', role: 'img', 'aria-label': description, width: '100%', height: `${HEIGHT_EM}em` },
    svg('defs', {}, gradient(`${id}-band`, layout), hatch(`${id}-hatch`)),
    ...band(`${id}-band`, layout),
    ...target(`${id}-hatch`, layout),
    ...ticks(layout),
    ...layout.estimates.flatMap((estimate) => whiskers(estimate)),
    ...layout.estimates.map((estimate) => caret(estimate, layout)),
  );
}

export function renderRibbon(data: RibbonData, description: string): SVGElement {
  return toElement(drawRibbon(data, description));
}

function gradient(id: string, layout: RibbonLayout): SvgNode {
  const stops = layout.stops.map(({ offset, colour }) =>
    svg('stop', { offset: offset.toFixed(4), 'stop-color': colour }),
  );
  return svg('linearGradient', { id }, ...stops);
}

function hatch(id: string): SvgNode {
  const attributes = { id, width: 5, height: 5, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' };
  return svg('pattern', attributes, svg('path', { class: 'hatch', d: 'M0 0V5' }));
}

function band(id: string, { band: { from, to } }: RibbonLayout): SvgNode[] {
  const box = { x: percent(from), y: em(BAND_TOP_EM), width: percent(to - from), height: em(BAND_HEIGHT_EM) };
  return [svg('rect', { ...box, fill: `url(#${id})` }), svg('rect', { ...box, class: 'edge' })];
}

function target(hatchId: string, { target: span }: RibbonLayout): SvgNode[] {
  if (!span) return [];
  const top = BAND_BOTTOM_EM + 0.12;
  const bottom = top + TARGET_HEIGHT_EM;
  const end = (at: number) => line('bracket', at, at, BAND_TOP_EM - 0.12, bottom);
  return [
    svg('rect', {
      x: percent(span.from),
      y: em(top),
      width: percent(span.to - span.from),
      height: em(TARGET_HEIGHT_EM),
      fill: `url(#${hatchId})`,
    }),
    line('bracket', span.from, span.to, bottom, bottom),
    ...(span.openBelow ? [] : [end(span.from)]),
    ...(span.openAbove ? [] : [end(span.to)]),
  ];
}

function ticks({ ticks: all }: RibbonLayout): SvgNode[] {
  return all.flatMap(({ at, value }, i) => [
    line('tick', at, at, BAND_BOTTOM_EM, BAND_BOTTOM_EM + 0.3),
    svg(
      'text',
      { class: i % 2 === 1 ? 'label between' : 'label', x: percent(at), y: em(LABEL_EM), 'text-anchor': 'middle' },
      formatValue(value),
    ),
  ]);
}

function whiskers({ from, to, openBelow, openAbove }: PlacedEstimate): SvgNode[] {
  const y = BAND_TOP_EM - 0.62;
  const end = (at: number) => line('whisker', at, at, y - 0.28, y + 0.28);
  return [
    line('whisker', from, to, y, y),
    ...(openBelow ? [arrow(from, 'M0 0H-14M-9 -5-14 0-9 5', y)] : [end(from)]),
    ...(openAbove ? [arrow(to, 'M0 0H14M9 -5 14 0 9 5', y)] : [end(to)]),
  ];
}

function caret({ at }: PlacedEstimate, { offScale }: RibbonLayout): SvgNode {
  if (offScale === 'below') return arrow(at, 'M-17 0-5 -7V7Z', BAND_TOP_EM + BAND_HEIGHT_EM / 2, 'caret');
  if (offScale === 'above') return arrow(at, 'M17 0 5 -7V7Z', BAND_TOP_EM + BAND_HEIGHT_EM / 2, 'caret');
  return svg(
    'svg',
    { x: percent(at), y: em(BAND_TOP_EM - 1.1), width: '1em', height: '2.7em', viewBox: '0 0 16 43', class: 'mark' },
    svg('path', { class: 'halo', d: 'M0 14V38' }),
    svg('path', { class: 'stem', d: 'M0 14V38' }),
    svg('path', { class: 'caret', d: 'M-6.5 1.5C-3 2.3 3 2.3 6.5 1.5 4 6.5 2 11 0 17-2 11-4 6.5-6.5 1.5Z' }),
  );
}

function arrow(at: number, d: string, yEm: number, name = 'whisker'): SvgNode {
  const frame = { x: percent(at), y: em(yEm), width: '1em', height: '1em', viewBox: '0 0 16 16', class: 'mark' };
  return svg('svg', frame, svg('path', { class: name, d }));
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
