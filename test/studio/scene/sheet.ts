/** How a card's paper lies when it isn't flat: rolled up a little, or folded once and opened again. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../../src/core/card/geometry.ts';
import { lightOnTilted } from './light.ts';
import type { Illumination, SheetShape } from './types.ts';
import type { Projection } from './view.ts';

export interface Sheet {
  /**
   * The place on the paper that is seen where the plane is at (xMm, yMm): writes x and y on the card, mm, and how the
   * light that falls there compares with that on the plane. False where the ray misses the paper.
   */
  at(xMm: number, yMm: number, into: Float64Array): boolean;
}

/** The paper's cross-section: lengths along it from its middle, heights above the table. */
interface Section {
  /** Where the ray through (a, height) and (b, 0) meets the paper: distance along it, share of the ray, tilt; or null. */
  hit(a: number, height: number, b: number): { s: number; share: number; tilt: number } | null;
}

const [MIDDLE_X, MIDDLE_Y] = [CARD_WIDTH_MM / 2, CARD_HEIGHT_MM / 2];

export function sheetOf(shape: SheetShape, projection: Projection, light: Illumination): Sheet {
  const across = (shape.acrossDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(across), Math.sin(across)];
  const reachMm = MIDDLE_X * Math.abs(cos) + MIDDLE_Y * Math.abs(sin);
  const section = shape.kind === 'curl' ? arc(shape.riseMm, reachMm) : crease(shape.foldDegrees, shape.atMm, reachMm);
  const [eyeX, eyeY, eyeHeight] = projection.eye;
  const toLocal = (x: number, y: number) => [
    cos * (x - MIDDLE_X) + sin * (y - MIDDLE_Y),
    cos * (y - MIDDLE_Y) - sin * (x - MIDDLE_X),
  ];
  const [eyeA, eyeB] = toLocal(eyeX, eyeY) as [number, number];
  const falling = lightOnTilted(light, shape.acrossDegrees);
  return {
    at: (x, y, into) => {
      const [a, b] = toLocal(x, y) as [number, number];
      const met = section.hit(eyeA, eyeHeight, a);
      if (!met) return false;
      const along = eyeB + met.share * (b - eyeB);
      into[0] = MIDDLE_X + cos * met.s - sin * along;
      into[1] = MIDDLE_Y + sin * met.s + cos * along;
      into[2] = falling(met.tilt);
      return true;
    },
  };
}

/** A circle's arc; `riseMm` over the half length, negative when the ends stand up instead of the middle. */
function arc(riseMm: number, reachMm: number): Section {
  const radius = (reachMm * reachMm) / (2 * Math.abs(riseMm));
  const up = riseMm > 0;
  const axis = up ? -radius * Math.cos(reachMm / radius) : radius;
  return {
    hit: (a, height, b) => {
      const [da, dz] = [b - a, -height];
      const [p, q, r] = [
        da * da + dz * dz,
        a * da + (height - axis) * dz,
        a * a + (height - axis) ** 2 - radius * radius,
      ];
      const root = q * q - p * r;
      if (root < 0) return null;
      // The middle up: the near side of the roll; the ends up: its far side.
      const share = (-q + (up ? -1 : 1) * Math.sqrt(root)) / p;
      const [x, z] = [a + share * da, height + share * dz];
      const angle = Math.atan2(x, up ? z - axis : axis - z);
      return { s: radius * angle, share, tilt: up ? angle : -angle };
    },
  };
}

/** Two flat halves that meet at `atMm`; the fold's ridge stands up for a positive angle between them, else its ends. */
function crease(foldDegrees: number, atMm: number, reachMm: number): Section {
  const slope = (foldDegrees / 2) * (Math.PI / 180);
  const [cos, tan] = [Math.cos(slope), Math.tan(slope)];
  const top = slope > 0 ? (reachMm + Math.abs(atMm)) * Math.sin(slope) : 0;
  return {
    hit: (a, height, b) => {
      for (const side of [-1, 1]) {
        // On this side the paper's height is top - side * tan * (x - atMm).
        const fall = side * tan * (b - a) - height;
        const share = (top - height - side * tan * (a - atMm)) / fall;
        const x = a + share * (b - a) - atMm;
        if (side * x >= 0 && share > 0) return { s: atMm + x / cos, share, tilt: side * slope };
      }
      return null;
    },
  };
}
