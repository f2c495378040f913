/** How a chart lies: from a place on it to the picture, and from the picture to a place on it. */
import { lightOnTilted } from '../scene/light.ts';
import type { Projection } from '../scene/view.ts';
import type { Illumination, LaidChart } from '../scene/types.ts';
import { layoutOf } from './layout.ts';

export interface Lie {
  readonly widthMm: number;
  readonly heightMm: number;
  /**
   * The place on the chart, mm from its middle, that is seen where the plane is at (xMm, yMm): writes u and v, and
   * how the light that falls there compares with that on the plane. False where the chart isn't seen.
   */
  at(xMm: number, yMm: number, into: Float64Array): boolean;
  /** Where a place on the chart is in the picture, px. */
  toPicture(uMm: number, vMm: number): readonly [number, number];
}

export function lieOf(chart: LaidChart, projection: Projection, light: Illumination): Lie {
  const { widthMm, heightMm } = layoutOf(chart);
  const turn = (chart.turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const toLocal = (x: number, y: number): [number, number] => [
    cos * (x - chart.xMm) + sin * (y - chart.yMm),
    cos * (y - chart.yMm) - sin * (x - chart.xMm),
  ];
  const toPlane = (u: number, v: number): [number, number] => [
    chart.xMm + cos * u - sin * v,
    chart.yMm + sin * u + cos * v,
  ];
  const inside = (u: number, v: number) => Math.abs(u) <= widthMm / 2 + 0.5 && Math.abs(v) <= heightMm / 2 + 0.5;
  if (!chart.curve) {
    return {
      widthMm,
      heightMm,
      at: (x, y, into) => {
        const [u, v] = toLocal(x, y);
        into.set([u, v, 1]);
        return inside(u, v);
      },
      toPicture: (u, v) => projection.toPicture(...toPlane(u, v)),
    };
  }
  const { radiusMm, topMm } = chart.curve;
  const [eyeX, eyeY, eyeHeight] = projection.eye;
  const [eyeU, eyeV] = toLocal(eyeX, eyeY);
  const axis = topMm - radiusMm;
  const falling = lightOnTilted(light, chart.turnDegrees + 90);
  return {
    widthMm,
    heightMm,
    at: (x, y, into) => {
      const [u, v] = toLocal(x, y);
      const hit = hitCylinder([eyeU, eyeV, eyeHeight], [u - eyeU, v - eyeV, -eyeHeight], axis, radiusMm);
      if (!hit || hit[2] < 0) return false;
      const angle = Math.atan2(hit[1], hit[2] - axis);
      into.set([hit[0], radiusMm * angle, falling(angle)]);
      return inside(hit[0], radiusMm * angle);
    },
    toPicture: (u, v) => {
      const angle = v / radiusMm;
      const [y, z] = [radiusMm * Math.sin(angle), axis + radiusMm * Math.cos(angle)];
      const reach = eyeHeight / (eyeHeight - z);
      return projection.toPicture(...toPlane(eyeU + (u - eyeU) * reach, eyeV + (y - eyeV) * reach));
    },
  };
}

type Triple = readonly [number, number, number];

/** Where a ray first meets a cylinder along u whose axis is at a height. */
function hitCylinder(from: Triple, along: Triple, axis: number, radius: number): Triple | null {
  const a = along[1] ** 2 + along[2] ** 2;
  const b = from[1] * along[1] + (from[2] - axis) * along[2];
  const c = from[1] ** 2 + (from[2] - axis) ** 2 - radius ** 2;
  const root = b * b - a * c;
  if (root < 0) return null;
  const t = (-b - Math.sqrt(root)) / a;
  return [from[0] + t * along[0], from[1] + t * along[1], from[2] + t * along[2]];
}
