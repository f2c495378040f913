/** What is known about the photos for teaching, as it is written to sample-images/charts/truth.json. */
import { stripCalled } from '../strips/strips.ts';
import { chartTruth } from './chart-scene.ts';
import { CHART_SAMPLES, type ChartSample } from './samples.ts';

const tenth = (value: number) => Math.round(10 * value) / 10;

export function chartTruthFor({ file, shows, caption, light, scene }: ChartSample) {
  return {
    file,
    shows,
    caption,
    light,
    widthPx: scene.widthPx,
    heightPx: scene.heightPx,
    ...(scene.chart
      ? {
          rows: chartTruth(scene).map(({ parameter, unit, blocks }) => ({
            parameter,
            unit,
            blocks: blocks.map(({ value, place }) => ({ value, x: tenth(place[0]), y: tenth(place[1]) })),
          })),
        }
      : {}),
    ...(shows === 'reading' ? { values: scene.strip!.values } : {}),
  };
}

function stripTruth() {
  const { name, lengthMm, widthMm, pads, dipSeconds, readAfterSeconds, readBeforeSeconds } = stripCalled('garden-four');
  return {
    name,
    dipSeconds,
    readAfterSeconds,
    readBeforeSeconds,
    lengthMm,
    widthMm,
    pads: pads.map(({ parameter, unit, centreMm, widthMm: padWidth, heightMm }) => ({
      parameter,
      unit,
      centreMm,
      widthMm: padWidth,
      heightMm,
    })),
  };
}

export function chartTruthText(): string {
  const note =
    'Simulated pictures, not photographs; written by `npm run samples`. x and y are the middles of the blocks in pixels.';
  const photos = CHART_SAMPLES.map(chartTruthFor);
  const text = JSON.stringify({ note, strip: stripTruth(), photos }, null, 2);
  return `${text.replace(/\{\s+("value": [\d.]+),\s+("x": [\d.]+),\s+("y": [\d.]+)\s+\}/g, '{ $1, $2, $3 }')}\n`;
}
