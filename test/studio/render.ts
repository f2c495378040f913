/** From a scene to a photo. Nothing here is shared with the reader but the card's printed shapes and the strips' scales. */
import sharp from 'sharp';
import { develop, type Picture } from './camera/develop.ts';
import { expose } from './camera/expose.ts';
import { lieOf } from './charts/lie.ts';
import { cutEdges, paintCard } from './scene/card.ts';
import { paintChart } from './scene/chart.ts';
import { layClutter, shadowOf } from './scene/clutter.ts';
import { paletteFor, type Palette } from './scene/palette.ts';
import { layCovers, wetten } from './scene/covers.ts';
import { screenOf } from './scene/screen.ts';
import { seenOf } from './scene/seen.ts';
import { sheetOf } from './scene/sheet.ts';
import { type Laying, layStrip } from './scene/strip.ts';
import { paintTable } from './scene/table.ts';
import type { Texture } from './scene/texture.ts';
import type { LaidChart, Scene, ScreenSpec } from './scene/types.ts';
import { project, type Projection } from './scene/view.ts';

export type { Picture } from './camera/develop.ts';

/** The same scene always gives the same pixels. */
export async function render(scene: Scene): Promise<Picture> {
  const projection = project(scene.view, scene.widthPx, scene.heightPx);
  const palette = paletteFor(scene.light, scene.camera);
  const density = Math.min(26, 1.1 * projection.pxPerMm);
  const card = scene.card ? await paintCard(scene.card, palette, density, scene.seed + 1) : null;
  if (card && scene.card?.wet) wetten(card, scene.card.wet, palette, scene.seed + 6);
  if (card && scene.strip) layStrip(card, scene.strip, layingOf(scene, projection, palette));
  if (card) layCovers(card, scene.covers ?? [], scene.light, palette, true);
  const area = visibleArea(projection, scene);
  const mostTexels = Math.min(2600, 1.7 * Math.max(scene.widthPx, scene.heightPx));
  const tableDensity = Math.min(density, mostTexels / Math.max(area.widthMm, area.heightMm));
  const hiding =
    card && !scene.card?.shape ? { ...card, widthMm: card.widthPx / density, heightMm: card.heightPx / density } : null;
  const table = paintTable(scene.table, area, tableDensity, palette, scene.seed + 3, (ground) =>
    seenOf(ground, projection, scene.widthPx, scene.heightPx, hiding),
  );
  layClutter(table, scene.table.clutter, scene.light, palette, scene.seed + 4);
  if (scene.card) shadowOf(table, outlineOf(scene.card), scene.light, 0.6);
  layCovers(table, scene.covers ?? [], scene.light, palette, false);
  const chart = scene.chart ? await layChart(scene.chart, scene, projection, palette, table) : null;
  const sheet = scene.card?.shape ? sheetOf(scene.card.shape, projection, scene.light) : null;
  const screen = scene.screen ? await lightScreen(scene.screen, palette, projection) : null;
  const gain = scene.camera.exposure / whitePaper(palette.white);
  const frame = expose(scene, { card, sheet, table, chart, screen }, projection, gain);
  return develop(frame, scene, palette);
}

function layingOf(scene: Scene, projection: Projection, palette: Palette): Laying {
  const cardScale = scene.card?.scale ?? 1;
  return { light: scene.light, palette, seed: scene.seed + 2, eye: projection.eye, cardScale };
}

async function lightScreen(spec: ScreenSpec, palette: Palette, projection: Projection) {
  return screenOf(spec, await render(spec.shows), palette, projection);
}

async function layChart(
  chart: LaidChart,
  { light, seed }: Scene,
  projection: Projection,
  palette: Palette,
  table: Texture,
) {
  const texture = await paintChart(chart, palette, Math.min(26, 1.1 * projection.pxPerMm), seed + 5);
  const lie = lieOf(chart, projection, light);
  const { xMm, yMm, turnDegrees, curve } = chart;
  const { widthMm, heightMm } = lie;
  shadowOf(table, { xMm, yMm, widthMm, heightMm, turnDegrees, radiusMm: 0.5 }, light, curve ? 0.3 * curve.topMm : 0.5);
  return { texture, lie };
}

/** Green response of common paper in full light: what exposure is counted from. */
function whitePaper(white: readonly number[]): number {
  return 0.87 * white[1]!;
}

function outlineOf(card: NonNullable<Scene['card']>) {
  const { x0Mm, y0Mm, widthMm, heightMm } = cutEdges(card);
  return { xMm: x0Mm + widthMm / 2, yMm: y0Mm + heightMm / 2, widthMm, heightMm, turnDegrees: 0, radiusMm: 0.1 };
}

/** The part of the plane that the picture shows, kept within bounds when it runs to the horizon. */
function visibleArea(projection: Projection, { widthPx, heightPx }: Scene) {
  const place = new Float64Array(2);
  const xs: number[] = [];
  const ys: number[] = [];
  for (let i = 0; i <= 8; i++) {
    for (let j = 0; j <= 8; j++) {
      if (!projection.toPlane((widthPx * i) / 8, (heightPx * j) / 8, place)) continue;
      xs.push(Math.min(600, Math.max(-500, place[0]!)));
      ys.push(Math.min(550, Math.max(-450, place[1]!)));
    }
  }
  const [x0Mm, y0Mm] = [Math.min(...xs) - 2, Math.min(...ys) - 2];
  return { x0Mm, y0Mm, widthMm: Math.max(...xs) + 2 - x0Mm, heightMm: Math.max(...ys) + 2 - y0Mm };
}

/** As a phone would save it: 4:2:0 JPEG, with a note that it is simulated. */
export async function encodeJpeg(picture: Picture, quality: number, orientation?: number): Promise<Buffer> {
  const { data, width, height } = picture;
  const image = sharp(Buffer.from(data.buffer, data.byteOffset, data.byteLength), {
    raw: { width, height, channels: 4 },
  })
    .removeAlpha()
    .withExif({ IFD0: { ImageDescription: 'Simulated picture, not a photograph' } });
  if (orientation) image.withMetadata({ orientation });
  return image.jpeg({ quality, chromaSubsampling: '4:2:0' }).toBuffer();
}

/** The scene through a JPEG and back, at its camera's quality. */
export async function renderThroughJpeg(scene: Scene): Promise<Picture> {
  const jpeg = await encodeJpeg(await render(scene), scene.camera.jpegQuality);
  const { data, info } = await sharp(jpeg).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return {
    data: new Uint8ClampedArray(data.buffer, data.byteOffset, data.byteLength),
    width: info.width,
    height: info.height,
  };
}
