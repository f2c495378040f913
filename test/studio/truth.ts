/** What is known about each sample photo, as it is written to sample-images/truth.json. */
import { SAMPLES, type Sample } from './samples.ts';
import { stripOf } from './scene/strip.ts';
import type { LaidStrip } from './scene/types.ts';
import { project, truthOf, type Point } from './scene/view.ts';

const tenth = (value: number) => Math.round(value * 10) / 10;

const rounded = (points: readonly Point[]) => points.map((point) => point.map(tenth));

/** Which values lie off the printed scale. */
function offScale(laid: LaidStrip): Record<string, 'below' | 'above'> {
  const sides: Record<string, 'below' | 'above'> = {};
  for (const pad of stripOf(laid).pads) {
    const value = laid.values[pad.parameter]!;
    if (value < pad.values[0]!) sides[pad.parameter] = 'below';
    if (value > pad.values.at(-1)!) sides[pad.parameter] = 'above';
  }
  return sides;
}

/** What is known about a photo. Points are in pixels of the upright picture, (0, 0) its top left corner. */
export function truthFor({ file, caption, light, scene, refused, orientation }: Sample) {
  const { card, fiducials } = truthOf(project(scene.view, scene.widthPx, scene.heightPx));
  const laid = scene.strip;
  return {
    file,
    caption,
    ...(refused ? { refused } : {}),
    scale: laid?.id ?? 'practice-four',
    ...(laid && !refused ? { values: laid.values, offScale: offScale(laid) } : {}),
    widthPx: scene.widthPx,
    heightPx: scene.heightPx,
    exifOrientation: orientation ?? 1,
    light,
    camera: scene.camera.family,
    table: scene.table.kind,
    ...(scene.card
      ? {
          variant: scene.card.variant,
          cardFill: scene.view.cardFill,
          tiltDegrees: scene.view.tiltDegrees,
          rollDegrees: scene.view.rollDegrees,
          card: rounded(card),
          fiducials: fiducials.map(({ id, corners, centre }) => ({
            id,
            corners: rounded(corners),
            centre: rounded([centre])[0],
          })),
        }
      : {}),
    ...(laid
      ? {
          strip: {
            reversed: laid.reversed,
            alongMm: tenth(laid.alongMm),
            acrossMm: tenth(laid.acrossMm),
            angleDegrees: tenth(laid.angleDegrees),
          },
        }
      : {}),
  };
}

export function truthText(): string {
  const read = SAMPLES.filter((sample) => !sample.refused).map(truthFor);
  const refused = SAMPLES.filter((sample) => sample.refused).map(truthFor);
  const note = 'Simulated pictures, not photographs; written by `npm run samples`. Points are [x, y] in pixels.';
  const text = JSON.stringify({ note, photos: read, refused }, null, 2);
  const pairs = text.replace(/\[\s+(-?[\d.]+),\s+(-?[\d.]+)\s+\]/g, '[$1, $2]');
  return `${pairs.replace(/\[\s+((?:\[[^[\]]*\],?\s*)+)\]/g, (_, points: string) => `[${points.trim().replace(/,\s+\[/g, ', [')}]`)}\n`;
}
