import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { project, type Projection } from '../scene/view.ts';
import { D50, D65 } from '../spectra/daylight.ts';
import { paperUnder, spotInk } from '../spectra/inks.ts';
import { ledWhite } from '../spectra/lights.ts';
import { labOf } from '../spectra/observer.ts';
import { developed, GARDEN_FOUR, STRIPS } from '../strips/strips.ts';
import { chartFor } from './chart-scene.ts';
import { lieOf } from './lie.ts';
import { CHART_SAMPLES } from './samples.ts';
import { chartTruthFor, chartTruthText } from './truth.ts';

const fileOf = (file: string) => new URL(`../../../sample-images/${file}`, import.meta.url);

describe('a chart in press inks', () => {
  const blocks = [...STRIPS, GARDEN_FOUR].flatMap((strip) =>
    strip.pads.flatMap((pad) => pad.values.map((value) => developed(pad, value))),
  );
  const stock = { level: 0.86, yellowness: 0, brightener: 0.06 };
  const inInk = (light: typeof D50) => blocks.map((pad) => spotInk(labOf(pad, D50), paperUnder(stock, light)));
  const differences = (light: typeof D50) =>
    inInk(light).map((ink, i) => ciede2000(labOf(ink, light), labOf(blocks[i]!, light)));

  // Graphic arts judge matches under D50 (ISO 3664): that is where a printer's match must hold, and need hold.
  test('matches the wet pads under D50', () => {
    const apart = differences(D50);
    expect(apart.filter((deltaE) => deltaE < 0.1).length / apart.length).toBeGreaterThan(0.85);
    expect(Math.max(...apart)).toBeLessThan(1.1);
  });

  test('does so only to the eye: under other lights many blocks part from their pads', () => {
    const lamp = differences(ledWhite('neutral', 0));
    expect(Math.max(...lamp)).toBeGreaterThan(1.5);
    const spectra = inInk(D65).map((ink, i) => Math.max(...ink.map((value, k) => Math.abs(value - blocks[i]![k]!))));
    expect(spectra.sort((a, b) => a - b)[spectra.length >> 1]).toBeGreaterThan(0.05);
  });
});

describe('how a chart lies', () => {
  const view = {
    cardFill: 0.6,
    tiltDegrees: 12,
    tiltTowardsDegrees: 70,
    rollDegrees: 8,
    offset: [0, -0.1],
    focal: 0.74,
    bend: 0,
  } as const;
  const light = CHART_SAMPLES[0]!.scene.light;
  const plan = { strip: 'garden-four', side: 'below', apartMm: 8, turnDegrees: 5 } as const;

  test.each([
    { name: 'flat', curve: null },
    { name: 'curved', curve: { radiusMm: 60, topMm: 25 } },
  ])('$name: to the picture and back again', ({ curve }) => {
    const projection = project(view, 1500, 2000);
    const lie = lieOf(chartFor({ ...plan, chart: { curve } }), projection, light);
    const plane = new Float64Array(2);
    const place = new Float64Array(3);
    for (const [u, v] of [
      [0, 0],
      [30, -20],
      [-40, 25],
    ] as const) {
      projection.toPlane(...lie.toPicture(u, v), plane);
      expect(lie.at(plane[0]!, plane[1]!, place)).toBe(true);
      expect(place[0]).toBeCloseTo(u, 4);
      expect(place[1]).toBeCloseTo(v, 4);
    }
  });

  test('round a cylinder an arc looks as long as its chord, from far above', () => {
    const far: Projection = {
      toPicture: (x, y) => [x, y],
      toPlane: () => true,
      pxPerMm: 1,
      eye: [74, 150, 1e6],
    };
    const lie = lieOf(chartFor({ ...plan, turnDegrees: 0, chart: { curve: { radiusMm: 50, topMm: 50 } } }), far, light);
    const middle = lie.toPicture(0, 0)[1];
    expect(lie.toPicture(0, 30)[1] - middle).toBeCloseTo(50 * Math.sin(30 / 50), 1);
  });

  test('light falls off round the curve, more on the side away from it', () => {
    const chart = chartFor({ ...plan, turnDegrees: 0, chart: { curve: { radiusMm: 60, topMm: 20 } } });
    const projection = project({ ...view, tiltDegrees: 0, rollDegrees: 0 }, 1500, 2000);
    const lie = lieOf(chart, projection, { ...light, softness: 0.6, fromDegrees: 270 });
    const levelAt = (v: number) => {
      const plane = new Float64Array(2);
      const place = new Float64Array(3);
      projection.toPlane(...lie.toPicture(0, v), plane);
      lie.at(plane[0]!, plane[1]!, place);
      return place[2]!;
    };
    expect(levelAt(0)).toBeCloseTo(1, 2);
    expect(levelAt(35)).toBeLessThan(0.93);
    expect(levelAt(35)).toBeLessThan(levelAt(-35));
  });
});

describe('the sample photos for teaching', () => {
  // A check of consistency only: the kept truth and the script that writes it say the same.
  test('truth.json is what the script computes', () => {
    expect(readFileSync(fileOf('charts/truth.json'), 'utf8')).toBe(chartTruthText());
  });

  test('two lights of the same chart, with the same card and the same phone', () => {
    const [one, other] = CHART_SAMPLES.filter(({ shows }) => shows === 'chart').map(({ scene }) => scene);
    expect(other!.card).toEqual(one!.card);
    expect([other!.camera.family, other!.camera.unit]).toEqual([one!.camera.family, one!.camera.unit]);
    expect(other!.light.main).not.toEqual(one!.light.main);
  });

  test.each(CHART_SAMPLES.map((sample) => ({ file: sample.file, sample })))(
    '$file is stored at its size, says that it is simulated, and shows all its blocks',
    async ({ file, sample }) => {
      const { width, height } = await sharp(fileURLToPath(fileOf(file))).metadata();
      expect([width, height]).toEqual([sample.scene.widthPx, sample.scene.heightPx]);
      expect(readFileSync(fileOf(file)).includes('Simulated picture')).toBe(true);
      for (const { x, y } of chartTruthFor(sample).rows?.flatMap(({ blocks }) => blocks) ?? []) {
        expect(x > 40 && y > 40 && x < width - 40 && y < height - 40).toBe(true);
      }
    },
  );
});
