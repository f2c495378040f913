/** What a shape covers on the card, type measured in its real font. */
import type { Box, Shape, Text } from '../../../src/core/card/drawing.ts';
import { anchorShiftMm, setLine } from '../../../src/print/typeface.ts';

export function boundsOf(shape: Shape): readonly Box[] {
  if (shape.kind === 'boxes') return shape.boxes;
  if (shape.kind === 'text') return [lineBounds(shape)];
  const { xMm, yMm, diameterMm } = shape;
  return [{ xMm: xMm - diameterMm / 2, yMm: yMm - diameterMm / 2, widthMm: diameterMm, heightMm: diameterMm }];
}

function lineBounds(text: Text): Box {
  const { widthMm, riseMm, fallMm } = setLine(text);
  const left = -anchorShiftMm(text.anchor, widthMm);
  const turn = (text.turnDegrees * Math.PI) / 180;
  const corners = [
    [left, -riseMm],
    [left + widthMm, -riseMm],
    [left, fallMm],
    [left + widthMm, fallMm],
  ].map(([x, y]) => [
    text.xMm + x! * Math.cos(turn) - y! * Math.sin(turn),
    text.yMm + x! * Math.sin(turn) + y! * Math.cos(turn),
  ]);
  const xs = corners.map(([x]) => x!);
  const ys = corners.map(([, y]) => y!);
  const xMm = Math.min(...xs);
  const yMm = Math.min(...ys);
  return { xMm, yMm, widthMm: Math.max(...xs) - xMm, heightMm: Math.max(...ys) - yMm };
}

/** True when two boxes share more than an edge. */
export function overlap(a: Box, b: Box): boolean {
  const slack = 1e-9;
  return (
    a.xMm + slack < b.xMm + b.widthMm &&
    b.xMm + slack < a.xMm + a.widthMm &&
    a.yMm + slack < b.yMm + b.heightMm &&
    b.yMm + slack < a.yMm + a.heightMm
  );
}

export function grown({ xMm, yMm, widthMm, heightMm }: Box, byMm: number): Box {
  return { xMm: xMm - byMm, yMm: yMm - byMm, widthMm: widthMm + 2 * byMm, heightMm: heightMm + 2 * byMm };
}
