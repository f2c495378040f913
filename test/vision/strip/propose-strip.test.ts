import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { openStrip } from '../../../src/vision/strip/open-strip.ts';
import { keptPhoto } from '../chart/charts.ts';

const { strip } = JSON.parse(readFileSync('sample-images/charts/truth.json', 'utf8')) as {
  strip: { lengthMm: number; widthMm: number; pads: { centreMm: number; widthMm: number }[] };
};

describe.each(['strip-dry.jpg', 'reading-evening.jpg'])('%s', (file) => {
  test('length, width and pads within a millimetre, counted from the pad end', async () => {
    const { found, reason } = openStrip(await keptPhoto(file), strip.pads.length);
    expect(reason).toBeNull();
    const { lengthMm, widthMm, pads, base } = found!.strip;
    expect(Math.abs(lengthMm - strip.lengthMm)).toBeLessThan(1);
    expect(Math.abs(widthMm - strip.widthMm)).toBeLessThan(0.5);
    expect(pads).toHaveLength(strip.pads.length);
    // White plastic: light, and its channels near one another even before any correction.
    expect(base.length).toBeGreaterThan(1);
    for (const { rgb } of base) expect(Math.min(...rgb)).toBeGreaterThan(0.55 * Math.max(...rgb));
    pads.forEach((pad, i) => {
      expect(Math.abs(pad.centreMm - strip.pads[i]!.centreMm)).toBeLessThan(0.8);
      expect(Math.abs(pad.widthMm - strip.pads[i]!.widthMm)).toBeLessThan(0.8);
    });
  });
});

test('an empty slot and a photo without a card are told apart', async () => {
  expect(openStrip(await keptPhoto('chart-open-shade.jpg'), 4).reason).toBe('no-strip');
  expect(openStrip(await keptPhoto('../refused/no-card.jpg'), 4).reason).toBe('no-card');
});
