/** Scenes with a colour chart beside the card. */
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../../../src/core/card/geometry.ts';
import type { PadQuantity } from '../../../src/core/measurement/quantities.ts';
import type { LaidChart, Scene, View } from '../scene/types.ts';
import { project, type Point } from '../scene/view.ts';
import { stripCalled } from '../strips/strips.ts';
import { layoutOf } from './layout.ts';
import { lieOf } from './lie.ts';

export interface ChartPlan {
  readonly strip: string;
  /** On which side of the card it lies, and how far from its edge. */
  readonly side: 'below' | 'right';
  readonly apartMm: number;
  readonly turnDegrees: number;
  readonly chart?: Partial<LaidChart>;
}

/** A chart with its rows in the order of the strip's pads from the far end, as if the strip were held upright. */
export function chartFor({ strip, side, apartMm, turnDegrees, chart }: ChartPlan): LaidChart {
  const plain: LaidChart = {
    id: strip,
    rows: stripCalled(strip)
      .pads.map((pad) => pad.parameter)
      .reverse(),
    xMm: 0,
    yMm: 0,
    turnDegrees,
    block: { widthMm: 10, heightMm: 8.5, gapMm: 2.5 },
    stock: { level: 0.88, yellowness: 0.01, brightener: 0.05 },
    tint: null,
    curve: null,
    glare: [],
    mottle: 0.012,
    ...chart,
  };
  const { widthMm, heightMm } = layoutOf(plain);
  const turn = (turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.abs(Math.cos(turn)), Math.abs(Math.sin(turn))];
  const [spanX, spanY] = [cos * widthMm + sin * heightMm, sin * widthMm + cos * heightMm];
  const [xMm, yMm] =
    side === 'below'
      ? [CARD_WIDTH_MM / 2, CARD_HEIGHT_MM + apartMm + spanY / 2]
      : [CARD_WIDTH_MM + apartMm + spanX / 2, CARD_HEIGHT_MM / 2];
  return { ...plain, xMm, yMm };
}

/** The scene with the chart, and the view moved so that both can be seen; the slot is left empty. */
export function withChart(scene: Scene, chart: LaidChart): Scene {
  return { ...scene, chart, strip: null, view: { ...scene.view, ...framing(chart, scene) } };
}

const ROOM = 1.1;

/** A view from almost straight above that holds the card and the chart. */
function framing(chart: LaidChart, { widthPx, heightPx }: Scene): Pick<View, 'cardFill' | 'offset' | 'rollDegrees'> {
  const { widthMm, heightMm } = layoutOf(chart);
  const reach = Math.hypot(widthMm, heightMm) / 2;
  const turn = (chart.turnDegrees * Math.PI) / 180;
  const [cos, sin] = [Math.abs(Math.cos(turn)), Math.abs(Math.sin(turn))];
  const half = [
    Math.min(reach, (cos * widthMm + sin * heightMm) / 2),
    Math.min(reach, (sin * widthMm + cos * heightMm) / 2),
  ] as const;
  const [left, right] = [Math.min(0, chart.xMm - half[0]), Math.max(CARD_WIDTH_MM, chart.xMm + half[0])];
  const [top, bottom] = [Math.min(0, chart.yMm - half[1]), Math.max(CARD_HEIGHT_MM, chart.yMm + half[1])];
  const across = Math.max((right - left) * ROOM, ((bottom - top) * ROOM * widthPx) / heightPx);
  const down = (across * heightPx) / widthPx;
  return {
    cardFill: Math.max(CARD_WIDTH_MM / across, CARD_HEIGHT_MM / down),
    rollDegrees: 0,
    offset: [(CARD_WIDTH_MM / 2 - (left + right) / 2) / across, (CARD_HEIGHT_MM / 2 - (top + bottom) / 2) / down],
  };
}

export interface BlockTruth {
  readonly value: number;
  /** Of its middle in the picture, px. */
  readonly place: Point;
}

export interface RowTruth {
  readonly parameter: PadQuantity;
  readonly unit: 'mg/L' | 'pH';
  readonly blocks: readonly BlockTruth[];
}

/** Where the blocks are in the picture, row by row from the top of the chart. */
export function chartTruth(scene: Scene): RowTruth[] {
  if (!scene.chart) throw new Error('the scene has no chart');
  const projection = project(scene.view, scene.widthPx, scene.heightPx);
  const lie = lieOf(scene.chart, projection, scene.light);
  return layoutOf(scene.chart).rows.map(({ pad, blocks }) => ({
    parameter: pad.parameter,
    unit: pad.unit,
    blocks: blocks.map(({ value, uMm, vMm }) => ({ value, place: lie.toPicture(uMm, vMm) })),
  }));
}
