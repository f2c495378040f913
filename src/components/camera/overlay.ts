/** What is drawn over the preview: the card's outline, and a drawing of what to do. */
import type { CloseLook, Corners, Glimpse } from '../../core/capture/glimpse.ts';
import type { HintCode } from '../../core/capture/hints.ts';
import type { Point } from '../../core/card/homography.ts';
import { svg, type SvgNode } from '../svg.ts';

/** @param hint null when nothing is in the way */
export function overlay(glimpse: Glimpse, close: CloseLook | null, hint: HintCode | null): SvgNode {
  const { widthPx, heightPx, card } = glimpse;
  const outline = card
    ? drawn('polygon', hint === null ? 'card good' : 'card', { points: pointsOf(card.corners) })
    : [];
  const pads = card && close ? close.pads.flatMap((pad) => drawn('polygon', 'pad', { points: pointsOf(pad) })) : [];
  return svg(
    'svg',
    { viewBox: `0 0 ${widthPx} ${heightPx}`, 'aria-hidden': 'true' },
    ...outline,
    ...pads,
    ...drawingOf(glimpse, close, hint),
  );
}

function drawingOf({ widthPx, heightPx, card }: Glimpse, close: CloseLook | null, hint: HintCode | null): SvgNode[] {
  if (hint === 'more-light' || hint === 'less-light') return sun([widthPx / 2, heightPx / 7], heightPx / 16, hint);
  if (!card) return hint === 'find-card' ? corners(frameOf(widthPx, heightPx)) : arrows(frameOf(widthPx, heightPx), -1);
  switch (hint) {
    case 'whole-card':
      return arrows(card.corners, -1);
    case 'nearer':
      return arrows(card.corners, 1);
    case 'flatter':
      return drawn('polygon', 'wish', { points: pointsOf(uprightLike(card.corners, card.pxPerMm)) });
    case 'hold-still':
      return [-1, 1].flatMap((side) => {
        const by = side * 0.025 * widthPx;
        return drawn('polygon', 'wish', { points: pointsOf(card.corners.map(([x, y]) => [x + by, y + by / 2])) });
      });
    case 'lay-strip':
    case 'check-strip':
      return drawn('path', 'mark', { d: line(inside(card.corners, 0.16, 0.5), inside(card.corners, 0.84, 0.5)) });
    case 'glare':
      return (close?.glarePads ?? []).flatMap((pad) => ring(close!.pads[pad]!));
    default:
      return [];
  }
}

/** Every line twice: dark on a bright edge, so that it shows on anything. */
function drawn(tag: string, name: string, attributes: Readonly<Record<string, string | number>>): SvgNode[] {
  return [svg(tag, { class: `${name} halo`, ...attributes }), svg(tag, { class: name, ...attributes })];
}

function frameOf(widthPx: number, heightPx: number): Corners {
  const [x, y] = [0.14 * widthPx, 0.14 * heightPx];
  return [
    [x, y],
    [widthPx - x, y],
    [widthPx - x, heightPx - y],
    [x, heightPx - y],
  ];
}

/** Where the card should come to lie: its four corners. */
function corners(at: Corners): SvgNode[] {
  const d = at.map(([x, y], i) => {
    const [before, after] = [at[(i + 3) % 4]!, at[(i + 1) % 4]!];
    return `M${point(between([x, y], before, 0.12))}L${point([x, y])}L${point(between([x, y], after, 0.12))}`;
  });
  return drawn('path', 'wish', { d: d.join('') });
}

/** At each corner, away from the middle (1) or towards it (-1). */
function arrows(at: Corners, way: 1 | -1): SvgNode[] {
  const middle = middleOf(at);
  const d = at.map((corner) => {
    const [from, to] = [
      between(corner, middle, way > 0 ? 0.02 : -0.16),
      between(corner, middle, way > 0 ? -0.16 : 0.02),
    ];
    const back = between(to, from, 0.45);
    const [dx, dy] = [(back[0] - to[0]) * 0.6, (back[1] - to[1]) * 0.6];
    const barbs = [1, -1].map((side): Point => [back[0] - side * dy, back[1] + side * dx]);
    return `${line(from, to)}M${point(barbs[0]!)}L${point(to)}L${point(barbs[1]!)}`;
  });
  return drawn('path', 'mark', { d: d.join('') });
}

/** The outline as it would be from straight above: same middle, same size, same turn. */
function uprightLike(at: Corners, pxPerMm: number): Point[] {
  const [x, y] = middleOf(at);
  const [left, right] = [between(at[0], at[3], 0.5), between(at[1], at[2], 0.5)];
  const length = Math.hypot(right[0] - left[0], right[1] - left[1]) || 1;
  const [ux, uy] = [(right[0] - left[0]) / length, (right[1] - left[1]) / length];
  const turn = cross(at) < 0 ? -1 : 1;
  const [w, h] = [74 * pxPerMm, 52.5 * pxPerMm];
  return [
    [-w, -h],
    [w, -h],
    [w, h],
    [-w, h],
  ].map(([a, b]): Point => [x + a! * ux - turn * b! * uy, y + a! * uy + turn * b! * ux]);
}

function cross([a, b, , d]: Corners): number {
  return (b[0] - a[0]) * (d[1] - a[1]) - (b[1] - a[1]) * (d[0] - a[0]);
}

function sun([x, y]: Point, radius: number, hint: 'more-light' | 'less-light'): SvgNode[] {
  const rays = Array.from({ length: 8 }, (_, i) => {
    const [c, s] = [Math.cos((i * Math.PI) / 4), Math.sin((i * Math.PI) / 4)];
    return line([x + 1.4 * radius * c, y + 1.4 * radius * s], [x + 2 * radius * c, y + 2 * radius * s]);
  });
  const struck = hint === 'less-light' ? line([x - 2 * radius, y + 2 * radius], [x + 2 * radius, y - 2 * radius]) : '';
  const d = `M${x - radius} ${y}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0`;
  return drawn('path', 'mark', { d: d + rays.join('') + struck });
}

function ring(pad: Corners): SvgNode[] {
  const [cx, cy] = middleOf(pad);
  const r = 1.2 * Math.max(...pad.map(([x, y]) => Math.hypot(x - cx, y - cy)));
  return drawn('circle', 'mark', { cx: cx.toFixed(1), cy: cy.toFixed(1), r: r.toFixed(1) });
}

/** Between the four corners, in proportion. */
function inside([a, b, c, d]: Corners, u: number, v: number): Point {
  return between(between(a, b, u), between(d, c, u), v);
}

function middleOf(at: Corners): Point {
  return [at.reduce((sum, [x]) => sum + x, 0) / 4, at.reduce((sum, [, y]) => sum + y, 0) / 4];
}

function between([ax, ay]: Point, [bx, by]: Point, share: number): Point {
  return [ax + share * (bx - ax), ay + share * (by - ay)];
}

function line(from: Point, to: Point): string {
  return `M${point(from)}L${point(to)}`;
}

function point([x, y]: Point): string {
  return `${x.toFixed(1)} ${y.toFixed(1)}`;
}

function pointsOf(at: readonly Point[]): string {
  return at.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ');
}
