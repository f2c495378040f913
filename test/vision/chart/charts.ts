/** Chart photos for tests: the kept ones, and ones rendered for a purpose. */
import { readFile } from 'node:fs/promises';
import { decodePhoto } from '../../../src/cli/decode.ts';
import type { Point } from '../../../src/core/card/homography.ts';
import type { Pixels } from '../../../src/vision/pixels.ts';
import { chartFor, type ChartPlan, chartTruth, withChart } from '../../studio/charts/chart-scene.ts';
import { randomScene } from '../../studio/random-scene.ts';
import { renderThroughJpeg } from '../../studio/render.ts';
import type { Scene } from '../../studio/scene/types.ts';
import { stripCalled } from '../../studio/strips/strips.ts';

interface Row {
  readonly parameter: string;
  readonly blocks: readonly { readonly value: number; readonly x: number; readonly y: number }[];
}

export interface ChartPhoto {
  readonly pixels: Pixels;
  /** Middles of the blocks in the photo, row by row. */
  readonly rows: readonly (readonly Point[])[];
}

export async function keptPhoto(file: string): Promise<Pixels> {
  const pixels = await decodePhoto(await readFile(`sample-images/charts/${file}`));
  if (!pixels) throw new Error(`${file} can't be decoded`);
  return pixels;
}

export async function keptChart(file: string): Promise<ChartPhoto> {
  const truth = JSON.parse(await readFile('sample-images/charts/truth.json', 'utf8')) as {
    photos: { file: string; rows?: Row[] }[];
  };
  const photo = truth.photos.find((one) => one.file === `charts/${file}`);
  if (!photo?.rows) throw new Error(`no chart ${file}`);
  return {
    pixels: await keptPhoto(file),
    rows: photo.rows.map(({ blocks }) => blocks.map(({ x, y }): Point => [x, y])),
  };
}

/** An everyday scene of that seed with a chart, seen from nearly above. */
export async function renderedChart(
  seed: number,
  plan: ChartPlan,
  change: (scene: Scene) => Scene = (scene) => scene,
): Promise<ChartPhoto> {
  const [widthPx, heightPx] = plan.side === 'below' ? [1050, 1400] : [1400, 1050];
  const base = randomScene(seed, 'everyday', stripCalled(plan.strip), { widthPx, heightPx });
  const plain: Scene = {
    ...base,
    card: { ...base.card!, variant: 'colour' },
    view: { ...base.view, tiltDegrees: 6 },
    camera: { ...base.camera, exposure: 0.65 },
  };
  const scene = change(withChart(plain, chartFor(plan)));
  return {
    pixels: await renderThroughJpeg(scene),
    rows: chartTruth(scene).map(({ blocks }) => blocks.map(({ place }) => place)),
  };
}
