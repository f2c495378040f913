/** Where a place on the card's plane lies in the picture, and back. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, FIDUCIALS } from '../../../src/core/card/geometry.ts';
import type { View } from './types.ts';

export type Point = readonly [number, number];

export interface Projection {
  /**
   * From millimetres on the card (x right, y down, from its top left corner) to the picture in pixels. The
   * picture's top left corner is (0, 0); the centre of its first pixel is (0.5, 0.5).
   */
  toPicture(xMm: number, yMm: number): Point;
  /** Back again. Writes to `into` (x, y); false where the ray never meets the plane. */
  toPlane(u: number, v: number, into: Float64Array): boolean;
  /** Pixels to a millimetre at the card's centre. */
  readonly pxPerMm: number;
  /** Where the lens is: x and y as on the card, and its height above the card's plane, mm. */
  readonly eye: readonly [xMm: number, yMm: number, heightMm: number];
}

type Rotation = readonly (readonly [number, number, number])[];

/** Camera axes: x right, y down, z forwards; the card faces the camera when nothing is tilted. */
function rotation(view: View): Rotation {
  const roll = (view.rollDegrees * Math.PI) / 180;
  const tilt = (view.tiltDegrees * Math.PI) / 180;
  const towards = (view.tiltTowardsDegrees * Math.PI) / 180;
  // Turning about this axis moves the side towards which the tilt goes away from the camera.
  const [ax, ay] = [Math.sin(towards), -Math.cos(towards)];
  const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
  const lean: Rotation = [
    [c + ax * ax * (1 - c), ax * ay * (1 - c), ay * s],
    [ax * ay * (1 - c), c + ay * ay * (1 - c), -ax * s],
    [-ay * s, ax * s, c],
  ];
  const [cr, sr] = [Math.cos(roll), Math.sin(roll)];
  return [
    lean[0]!.map((value, k) => cr * value - sr * lean[1]![k]!),
    lean[0]!.map((value, k) => sr * value + cr * lean[1]![k]!),
    [...lean[2]!],
  ] as unknown as Rotation;
}

export function project(view: View, widthPx: number, heightPx: number): Projection {
  const turned = rotation(view);
  const focalPx = view.focal * Math.max(widthPx, heightPx);
  const at = (distanceMm: number) => build(turned, focalPx, distanceMm, view, widthPx, heightPx);
  let [near, far] = [60, 20_000];
  for (let i = 0; i < 50; i++) {
    const middle = Math.sqrt(near * far);
    if (fillOf(at(middle), widthPx, heightPx) > view.cardFill) near = middle;
    else far = middle;
  }
  return at(far);
}

/** The card's outline in the picture: width or height as a share of the picture's, whichever is larger. */
function fillOf(projection: Projection, widthPx: number, heightPx: number): number {
  const corners = CARD_CORNERS.map(([x, y]) => projection.toPicture(x, y));
  if (corners.some((corner) => !Number.isFinite(corner[0]))) return Infinity;
  const span = (k: 0 | 1) => Math.max(...corners.map((p) => p[k])) - Math.min(...corners.map((p) => p[k]));
  return Math.max(span(0) / widthPx, span(1) / heightPx);
}

export const CARD_CORNERS: readonly Point[] = [
  [0, 0],
  [CARD_WIDTH_MM, 0],
  [CARD_WIDTH_MM, CARD_HEIGHT_MM],
  [0, CARD_HEIGHT_MM],
];

function build(
  turned: Rotation,
  focalPx: number,
  distanceMm: number,
  view: View,
  widthPx: number,
  heightPx: number,
): Projection {
  const [cx, cy] = [widthPx / 2, heightPx / 2];
  const half = Math.hypot(cx, cy);
  const shift = [
    (view.offset[0] * widthPx * distanceMm) / focalPx,
    (view.offset[1] * heightPx * distanceMm) / focalPx,
    distanceMm,
  ] as const;
  // Homography from the plane (about the card's centre) to ideal picture coordinates about the picture's centre.
  const h = [0, 1, 2].map((i) => {
    const scale = i < 2 ? focalPx : 1;
    return [scale * turned[i]![0], scale * turned[i]![1], scale * shift[i]!];
  });
  const inverse = invert(h);
  const [i00, i01, i02, i10, i11, i12, i20, i21, i22] = inverse.flat() as [
    ...[number, number, number],
    ...[number, number, number],
    ...[number, number, number],
  ];
  const eye = [0, 1, 2].map((k) => -shift.reduce((sum, value, i) => sum + turned[i]![k]! * value, 0));
  return {
    pxPerMm: focalPx / distanceMm,
    eye: [eye[0]! + CARD_WIDTH_MM / 2, eye[1]! + CARD_HEIGHT_MM / 2, -eye[2]!],
    toPicture: (xMm, yMm) => {
      const [x, y] = [xMm - CARD_WIDTH_MM / 2, yMm - CARD_HEIGHT_MM / 2];
      const [u, v, w] = h.map((row) => row[0]! * x + row[1]! * y + row[2]!) as [number, number, number];
      if (w <= 0) return [NaN, NaN];
      const [ideaU, ideaV] = [u / w, v / w];
      const factor = bendFactor(Math.hypot(ideaU, ideaV) / half, view.bend);
      return [cx + ideaU / factor, cy + ideaV / factor];
    },
    toPlane: (u, v, into) => {
      const [du, dv] = [u - cx, v - cy];
      const factor = 1 + view.bend * ((du * du + dv * dv) / (half * half));
      const [a, b] = [du * factor, dv * factor];
      const w = i20 * a + i21 * b + i22;
      if (w <= 1e-9) return false;
      into[0] = (i00 * a + i01 * b + i02) / w + CARD_WIDTH_MM / 2;
      into[1] = (i10 * a + i11 * b + i12) / w + CARD_HEIGHT_MM / 2;
      return true;
    },
  };
}

/** Solves ideal = seen (1 + bend seen²) for ideal / seen by Newton's method; radii in half diagonals. */
function bendFactor(ideal: number, bend: number): number {
  let seen = ideal;
  for (let i = 0; i < 6; i++) seen -= (seen * (1 + bend * seen * seen) - ideal) / (1 + 3 * bend * seen * seen);
  return 1 + bend * seen * seen;
}

/** Inverse up to a positive scale: rays that meet the plane in front keep a positive third coordinate. */
function invert(m: readonly (readonly number[])[]): number[][] {
  const [[a, b, c], [d, e, f], [g, h, i]] = m as unknown as readonly [Row, Row, Row];
  const determinant = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
  return [
    [e * i - f * h, c * h - b * i, b * f - c * e],
    [f * g - d * i, a * i - c * g, c * d - a * f],
    [d * h - e * g, b * g - a * h, a * e - b * d],
  ].map((row) => row.map((value) => value / determinant));
}

type Row = readonly [number, number, number];

export interface FiducialTruth {
  readonly id: string;
  /** Of the outer edge of the frame: top left, top right, bottom right, bottom left as printed. */
  readonly corners: readonly Point[];
  readonly centre: Point;
}

/** Where the card and its fiducials are in the picture, px. */
export function truthOf(projection: Projection): { card: Point[]; fiducials: FiducialTruth[] } {
  return {
    card: CARD_CORNERS.map(([x, y]) => projection.toPicture(x, y)),
    fiducials: FIDUCIALS.map(({ id, xMm, yMm, widthMm, heightMm }) => ({
      id,
      corners: [
        projection.toPicture(xMm, yMm),
        projection.toPicture(xMm + widthMm, yMm),
        projection.toPicture(xMm + widthMm, yMm + heightMm),
        projection.toPicture(xMm, yMm + heightMm),
      ],
      centre: projection.toPicture(xMm + widthMm / 2, yMm + heightMm / 2),
    })),
  };
}
