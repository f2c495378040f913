import { beforeAll, describe, expect, test } from 'vitest';
import type { Point } from '../../../src/core/card/homography.ts';
import { fitNeutrals } from '../../../src/core/colour/neutrals.ts';
import { type ChartConcern, judgeChart } from '../../../src/core/scale/judge-chart.ts';
import { blocksAt, openChart, type OpenChart, placesAlong } from '../../../src/vision/chart/open-chart.ts';
import type { BlockFound } from '../../../src/vision/chart/sample-block.ts';
import { type ChartPhoto, keptChart, renderedChart } from './charts.ts';

function opened(photo: ChartPhoto): OpenChart {
  const { chart, reason } = openChart(photo.pixels, true);
  if (!chart) throw new Error(reason);
  return chart;
}

function offMm(chart: OpenChart, block: BlockFound, [x, y]: Point): number {
  return Math.hypot(block.centre[0] - x, block.centre[1] - y) / chart.plane.pxPerMmAt([x, y]);
}

/** Mean of the pixels within 1 mm of a place, 0 to 1: what a sample should come to, found without edges. */
function meanAbout({ photo, plane }: OpenChart, [x, y]: Point): number[] {
  const radius = plane.pxPerMmAt([x, y]);
  const sums = [0, 0, 0];
  let count = 0;
  for (let row = Math.round(y - radius); row < y + radius; row++) {
    for (let column = Math.round(x - radius); column < x + radius; column++) {
      sums.forEach((sum, c) => (sums[c] = sum + photo.data[(row * photo.width + column) * 4 + c]!));
      count++;
    }
  }
  return sums.map((sum) => sum / count / 255);
}

const FILES = ['chart-open-shade.jpg', 'chart-neutral-lamp.jpg'];

describe.each(FILES)('%s', (file) => {
  let photo: ChartPhoto;
  let chart: OpenChart;
  beforeAll(async () => {
    photo = await keptChart(file);
    chart = opened(photo);
  });

  test('every row is proposed, with every block, in its place', () => {
    expect(chart.found.rows.map((row) => row.length)).toEqual(photo.rows.map((row) => row.length));
    chart.found.rows.forEach((row, i) =>
      row.forEach((block, k) => expect(offMm(chart, block, photo.rows[i]![k]!)).toBeLessThan(0.7)),
    );
  });

  test.each([
    [0, 0],
    [1.8, -1.5],
    [-2, 1.2],
  ])('a tap %f, %f mm off snaps to the block, and takes the colour of its middle', (dx, dy) => {
    const scale = chart.plane.pxPerMmAt(photo.rows[0]![0]!);
    for (const place of photo.rows.flat()) {
      const [{ block } = { block: null }] = blocksAt(chart, [[place[0] + dx * scale, place[1] + dy * scale]]);
      // The palest block on white has edges that can't be seen everywhere; what lies under the tap stands for it.
      if (block!.snapped) expect(offMm(chart, block!, place)).toBeLessThan(0.7);
      const expected = meanAbout(chart, place);
      block!.sample.rgb.forEach((value, c) => expect(Math.abs(value - expected[c]!)).toBeLessThan(0.012));
    }
    const all = blocksAt(chart, photo.rows.flat());
    expect(all.filter(({ block }) => block?.snapped).length).toBeGreaterThanOrEqual(all.length - 1);
  });

  test('a drag along a row and a number give every block of it', () => {
    const row = photo.rows[1]!;
    const places = placesAlong(chart, row[0]!, row.at(-1)!, row.length);
    blocksAt(chart, places).forEach(({ block }, i) => {
      expect(block!.snapped).toBe(true);
      expect(offMm(chart, block!, row[i]!)).toBeLessThan(0.7);
    });
  });

  test('nothing is found amiss with it', () => {
    expect(concernsOf(chart)).toEqual([]);
  });
});

test('off the photo and on the card nothing is sampled', async () => {
  const chart = opened(await keptChart(FILES[0]!));
  const onCard = chart.plane.toPhoto([74, 80]);
  expect(blocksAt(chart, [[-5, 100], onCard]).map(({ reason }) => reason)).toEqual(['off-photo', 'on-card']);
});

test('the plane is right far beyond the card', async () => {
  const { chart } = openChart((await keptChart(FILES[0]!)).pixels, false);
  const kept = await keptChart(FILES[0]!);
  // The leaflet's blocks are 12.5 mm apart along its rows, as it was laid out.
  for (const row of kept.rows) {
    const [first, last] = [chart!.plane.toCard(row[0]!), chart!.plane.toCard(row.at(-1)!)];
    expect(Math.hypot(last[0] - first[0], last[1] - first[1])).toBeCloseTo(12.5 * (row.length - 1), 0);
  }
});

describe('charts of other kinds', { tags: 'release' }, () => {
  test('round a bottle, on a tinted label', async () => {
    const chart = { curve: { radiusMm: 60, topMm: 20 }, tint: [0.8, 0.86, 0.9] as const };
    await expectRows(
      await renderedChart(31, { strip: 'practice-four', side: 'below', apartMm: 8, turnDegrees: 3, chart }),
    );
  });

  test('upright beside the card, its blocks touching', async () => {
    const chart = { block: { widthMm: 9, heightMm: 8, gapMm: 0 } };
    await expectRows(
      await renderedChart(32, { strip: 'practice-four', side: 'right', apartMm: 8, turnDegrees: 88, chart }),
    );
  });
});

/** All rows are found; a pale block at an end may be missed. */
async function expectRows(photo: ChartPhoto): Promise<void> {
  const chart = opened(photo);
  expect(chart.found.rows).toHaveLength(photo.rows.length);
  const places = photo.rows.flat();
  const found = chart.found.rows.flat();
  const hit = places.filter((place) => found.some((block) => offMm(chart, block, place) < 1));
  expect(hit.length).toBeGreaterThanOrEqual(places.length - 1);
  expect(found.length).toBeLessThanOrEqual(places.length + 1);
}

function concernsOf(chart: OpenChart): ChartConcern[] {
  const { samples, rows } = chart.found;
  return judgeChart(samples, fitNeutrals(samples), rows.flat());
}

describe('what is said of a photo', () => {
  const plan = { strip: 'garden-four', side: 'below', apartMm: 8, turnDegrees: 0 } as const;
  const codes = (photo: ChartPhoto) => concernsOf(opened(photo)).map(({ code }) => code);
  const light = { second: null, shading: [0, 0, 0, 0, 0] as const };

  test('a shadow over the chart but not the card', async () => {
    const shadow = { acrossDegrees: 90, atMm: 58, softMm: 4, depth: 0.45 };
    const photo = await renderedChart(33, plan, (scene) => ({
      ...scene,
      light: { ...scene.light, ...light, shadows: [shadow] },
    }));
    expect(codes(photo)).toContain('other-light');
  });

  test('a shadow across the chart', { tags: 'release' }, async () => {
    const shadow = { acrossDegrees: 0, atMm: 10, softMm: 5, depth: 0.4 };
    const photo = await renderedChart(33, plan, (scene) => ({
      ...scene,
      light: { ...scene.light, ...light, shadows: [{ ...shadow, acrossDegrees: 60, atMm: 90 }] },
    }));
    expect(codes(photo)).toContain('uneven');
  });

  test('a window mirrored in a block', { tags: 'release' }, async () => {
    const glare = [{ uMm: 7.2, vMm: -25, sizeMm: 4, strength: 1.2 }];
    const photo = await renderedChart(33, { ...plan, chart: { glare } });
    const chart = opened(photo);
    const blocks = blocksAt(chart, photo.rows.flat()).flatMap(({ block }) => block ?? []);
    const concerns = judgeChart(chart.found.samples, fitNeutrals(chart.found.samples), blocks);
    expect(concerns.map(({ code }) => code)).toContain('glare');
  });

  test('a chart too far from the card; one just near enough', { tags: 'release' }, async () => {
    const far = await renderedChart(33, { ...plan, apartMm: 52 }, (scene) => ({
      ...scene,
      light: { ...scene.light, ...light },
    }));
    expect(codes(far)).toContain('far');
    const near = await renderedChart(33, { ...plan, apartMm: 25 }, (scene) => ({
      ...scene,
      light: { ...scene.light, ...light },
    }));
    expect(codes(near)).not.toContain('far');
  });
});
