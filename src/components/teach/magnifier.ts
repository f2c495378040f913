/** The surroundings of a place in the photo, enlarged, with a crosshair and the outlines that lie there. */
import type { Point } from '../../core/card/homography.ts';
import type { Outline } from './board-drawing.ts';

const SIZE_PX = 152;
/** What it shows is this wide on the card's plane. */
const SPAN_MM = 16;

/** The photo as the reader has it, which may be smaller than the file. */
export interface PhotoSize {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly pxPerMm: number;
}

export class Magnifier {
  readonly #root: HTMLElement;
  readonly #canvas: HTMLCanvasElement;
  readonly #image: HTMLImageElement;

  constructor(root: HTMLElement, image: HTMLImageElement) {
    this.#root = root;
    this.#image = image;
    this.#canvas = root.querySelector('canvas')!;
    const ratio = Math.min(2, window.devicePixelRatio || 1);
    this.#canvas.width = this.#canvas.height = Math.round(SIZE_PX * ratio);
  }

  get visible(): boolean {
    return !this.#root.hidden;
  }

  /** @param atRight keep out of the way: the place itself is in the left half */
  show(photo: PhotoSize, [x, y]: Point, outlines: readonly Outline[], atRight: boolean): void {
    const context = this.#canvas.getContext('2d');
    if (!context || !this.#image.complete) return;
    const { width: size } = this.#canvas;
    const scale = size / (SPAN_MM * photo.pxPerMm);
    context.resetTransform();
    context.clearRect(0, 0, size, size);
    context.translate(size / 2, size / 2);
    context.scale(scale, scale);
    context.translate(-x, -y);
    context.imageSmoothingEnabled = scale < 2;
    context.drawImage(this.#image, 0, 0, photo.widthPx, photo.heightPx);
    for (const { points } of outlines) trace(context, points, scale);
    context.resetTransform();
    cross(context, size);
    this.#root.classList.toggle('at-right', atRight);
    this.#root.hidden = false;
  }

  hide(): void {
    this.#root.hidden = true;
  }
}

function trace(context: CanvasRenderingContext2D, points: readonly Point[], scale: number): void {
  context.beginPath();
  points.forEach(([x, y], i) => (i === 0 ? context.moveTo(x, y) : context.lineTo(x, y)));
  context.closePath();
  for (const [colour, px] of [
    ['#fff', 4],
    ['#000', 1.5],
  ] as const) {
    context.strokeStyle = colour;
    context.lineWidth = px / scale;
    context.stroke();
  }
}

function cross(context: CanvasRenderingContext2D, size: number): void {
  const [middle, arm, gap] = [size / 2, size * 0.16, size * 0.03];
  context.beginPath();
  for (const [dx, dy] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    context.moveTo(middle + dx * gap, middle + dy * gap);
    context.lineTo(middle + dx * arm, middle + dy * arm);
  }
  for (const [colour, width] of [
    ['#fff', size * 0.025],
    ['#000', size * 0.01],
  ] as const) {
    context.strokeStyle = colour;
    context.lineWidth = width;
    context.stroke();
  }
}
