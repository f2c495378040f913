/** What is drawn over the photo: outlines of blocks, the row that is being drawn, the crosshair. */
import type { Point } from '../../core/card/homography.ts';
import { svg, type SvgNode } from '../svg.ts';

export interface Outline {
  readonly points: readonly Point[];
  readonly label: string;
  readonly kind: 'marked' | 'current' | 'proposed';
  /** Its edges were found; else it stands for the place alone. */
  readonly snapped: boolean;
}

export interface BoardState {
  readonly outlines: readonly Outline[];
  /** Where a row begins that is being drawn. */
  readonly rowFrom: Point | null;
  readonly cross: Point;
  readonly showCross: boolean;
  /** A px of the screen in those of the photo. */
  readonly unitPx: number;
}

const ARM_MM = 4;

export function drawBoard(
  { widthPx, heightPx, pxPerMm }: { widthPx: number; heightPx: number; pxPerMm: number },
  { outlines, rowFrom, cross: [x, y], showCross, unitPx }: BoardState,
): SvgNode {
  const arm = ARM_MM * pxPerMm;
  const row = rowFrom ? [svg('path', { class: 'row-line', d: `M${rowFrom[0]} ${rowFrom[1]}L${x} ${y}` })] : [];
  const d = `M${x - arm} ${y}h${2 * arm}M${x} ${y - arm}v${2 * arm}`;
  const cross = showCross ? ['cross halo', 'cross'].map((look) => svg('path', { class: look, d })) : [];
  const blocks = outlines.flatMap((outline) => drawOutline(outline, unitPx));
  return svg('svg', { viewBox: `0 0 ${widthPx} ${heightPx}`, 'aria-hidden': 'true' }, ...blocks, ...row, ...cross);
}

function drawOutline({ points, label, kind, snapped }: Outline, unitPx: number): SvgNode[] {
  const list = points.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(' ');
  const look = `block ${kind}${snapped ? '' : ' loose'}`;
  const shapes = [
    svg('polygon', { class: `${look} halo`, points: list }),
    svg('polygon', { class: look, points: list }),
  ];
  if (label === '') return shapes;
  const mean = (k: 0 | 1) => points.reduce((sum, point) => sum + point[k], 0) / points.length;
  const place = { x: mean(0), y: mean(1) + 4.5 * unitPx, 'font-size': 13 * unitPx, 'text-anchor': 'middle' };
  return [...shapes, svg('text', place, label)];
}
