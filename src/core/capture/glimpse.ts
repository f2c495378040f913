/** What one frame of the preview showed: measured in `src/vision/track`, judged by `hints.ts`. */
import type { Point } from '../card/homography.ts';

/** Long side of the frames that are looked at, about, px. */
export const LOOK_PX = 640;

/** Top left, top right, bottom right, bottom left as printed; px of the frame. */
export type Corners = readonly [Point, Point, Point, Point];

export interface SeenCard {
  /** Of the paper. */
  readonly corners: Corners;
  /** Length of the card in the frame at its middle, px to the millimetre. */
  readonly pxPerMm: number;
  /** Between the camera's axis and the card's upright, degrees. */
  readonly tiltDegrees: number;
  /** Of the fiducials' edges, standard deviation, mm on the card; null where none could be followed. */
  readonly blurMm: number | null;
}

/** What takes longer to see, and changes more slowly. */
export interface CloseLook {
  readonly light: 'too-dark' | 'blown-out' | null;
  readonly strip: 'found' | 'no-strip' | 'strip-mismatch' | 'strip-face-down';
  /** Where the pads are, px of the frame, in the scale's order; empty without a strip. */
  readonly pads: readonly Corners[];
  /** Positions of the pads that mirror a light. */
  readonly glarePads: readonly number[];
}

export interface Glimpse {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly card: SeenCard | null;
  /** No card, but one or more of its corner marks. */
  readonly isPartSeen: boolean;
  /** Without a card: what the frame itself says about that. */
  readonly frame: 'too-dark' | 'blown-out' | 'blurred' | null;
  /** Only where it was asked for, and there is a card. */
  readonly close: CloseLook | null;
}
