/**
 * Lines as a hand draws them: bowed a little, ends a little over. Seeded, so
 * that a drawing is the same in every build. Lengths in the drawing's units.
 */
export type Spot = readonly [number, number];

/** How much a hand strays, for drawings about 200 units wide. */
const BOW = 0.9;
const OVERSHOOT = 0.7;

export class Pen {
  #state: number;

  constructor(seed: number) {
    this.#state = (seed * 2654435761) >>> 0 || 1;
  }

  /** One stroke; path data. */
  line([x1, y1]: Spot, [x2, y2]: Spot): string {
    const length = Math.hypot(x2 - x1, y2 - y1) || 1;
    const [ux, uy] = [(x2 - x1) / length, (y2 - y1) / length];
    const reach = Math.min(OVERSHOOT, length * 0.03);
    const [before, after] = [this.#stray(reach), this.#stray(reach)];
    const bow = this.#stray(Math.min(BOW, length * 0.012));
    const middle: Spot = [(x1 + x2) / 2 - uy * bow, (y1 + y2) / 2 + ux * bow];
    return `M${spot(x1 - ux * before, y1 - uy * before)}Q${spot(...middle)} ${spot(x2 + ux * after, y2 + uy * after)}`;
  }

  /** Four strokes that nearly meet. */
  rect(x: number, y: number, width: number, height: number): string {
    const corners: Spot[] = [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ];
    return corners.map((corner, i) => this.line(corner, corners[(i + 1) % 4]!)).join('');
  }

  /** Slanted strokes that shade a rectangle; the closer the darker. */
  hatch(x: number, y: number, width: number, height: number, gap: number): string {
    const strokes: string[] = [];
    for (let c = gap / 2; c < width + height; c += gap) {
      const from: Spot = c < height ? [x, y + c] : [x + c - height, y + height];
      const to: Spot = c < width ? [x + c, y] : [x + width, y + c - width];
      strokes.push(this.line(from, to));
    }
    return strokes.join('');
  }

  #stray(most: number): number {
    this.#state = (Math.imul(this.#state, 1664525) + 1013904223) >>> 0;
    return (this.#state / 0x1_0000_0000 - 0.5) * 2 * most;
  }
}

function spot(x: number, y: number): string {
  return `${x.toFixed(1)} ${y.toFixed(1)}`;
}

/** An ion's charge within a line of SVG text, as markup; the line goes on at its own height. */
export function raised(charge: string): string {
  return `<tspan dy="-0.5em" font-size="0.7em">${charge}</tspan><tspan dy="0.35em">\u200a</tspan>`;
}
