/** The arrow keys on the photo: which way, and how far on the card's plane. */
import type { Point } from '../../core/card/homography.ts';

const STEP_MM = 2;
const LONG_STEP_MM = 10;
const FINE_STEP_MM = 0.5;

const MOVES: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** @returns mm; null for other keys */
export function moveOf({ key, shiftKey, ctrlKey }: KeyboardEvent): Point | null {
  const move = MOVES[key];
  if (!move) return null;
  const mm = shiftKey ? LONG_STEP_MM : ctrlKey ? FINE_STEP_MM : STEP_MM;
  return [move[0] * mm, move[1] * mm];
}
