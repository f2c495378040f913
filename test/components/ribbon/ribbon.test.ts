import Color from 'colorjs.io';
import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { END_MARGIN, layoutRibbon, type RibbonData } from '../../../src/components/ribbon/ribbon.ts';
import { drawRibbon } from '../../../src/components/ribbon/drawing.ts';
import { toMarkup } from '../../../src/components/svg.ts';
import { parseScale, type ScalePad } from '../../../src/core/scale/schema.ts';

const pads = ['practice-four', 'practice-five'].flatMap((id): ScalePad[] => {
  const parsed = parseScale(JSON.parse(readFileSync(`src/content/scales/${id}.json`, 'utf8')));
  if (!parsed.ok) throw new Error(`${id} is no scale`);
  return parsed.scale.pads;
});
const ph = pads.find(({ parameter }) => parameter === 'ph')!;
const plain = (pad: ScalePad): RibbonData => ({ pad, target: null, estimates: [], offScale: null });

describe('a ribbon', () => {
  it.each(pads.map((pad) => [pad.parameter, pad] as const))('spaces the blocks of %s evenly', (_, pad) => {
    const { ticks, band } = layoutRibbon(plain(pad));
    const step = (band.to - band.from) / (pad.blocks.length - 1);
    ticks.forEach(({ at, value }, i) => {
      expect(value).toBe(pad.blocks[i]!.value);
      expect(at).toBeCloseTo(band.from + i * step, 6);
    });
  });

  it.each(pads.map((pad) => [pad.parameter, pad] as const))('shows each block of %s in its own colour', (_, pad) => {
    const { stops } = layoutRibbon(plain(pad));
    pad.blocks.forEach(({ lab }, i) => {
      const stop = stops.find(({ offset }) => Math.abs(offset - i / (pad.blocks.length - 1)) < 1e-9)!;
      // Lab D65 to sRGB by a second library, colorjs.io.
      const expected = new Color('lab-d65', [...lab]).to('srgb').coords.map((x) => 255 * Math.min(1, Math.max(0, x!)));
      const shown = [1, 3, 5].map((from) => parseInt(stop.colour.slice(from, from + 2), 16));
      shown.forEach((level, channel) => expect(Math.abs(level - expected[channel]!)).toBeLessThanOrEqual(1));
    });
  });

  it('places a larger value never further left, and nothing off the band', () => {
    const value = fc.double({ min: 0, max: 2000, noNaN: true });
    const pad = fc.constantFrom(...pads);
    fc.assert(
      fc.property(pad, value, value, (on, one, two) => {
        const [small, large] = one < two ? [one, two] : [two, one];
        const { estimates } = layoutRibbon({ ...plain(on), estimates: [{ value: small, low: small, high: large }] });
        const { from, to, at } = estimates[0]!;
        expect(from).toBeLessThanOrEqual(to);
        expect(at).toBe(from);
        expect(from).toBeGreaterThanOrEqual(END_MARGIN - 1e-9);
        expect(to).toBeLessThanOrEqual(1 - END_MARGIN + 1e-9);
      }),
      { seed: 11, numRuns: 200 },
    );
  });

  it('leaves a target that lies off the scale out, and opens one that runs past its end', () => {
    const low = ph.blocks[0]!.value;
    const high = ph.blocks.at(-1)!.value;
    expect(layoutRibbon({ ...plain(ph), target: { low: high + 1, high: high + 2 } }).target).toBeNull();
    const past = layoutRibbon({ ...plain(ph), target: { low: low - 1, high: 7.6 } }).target!;
    expect([past.openBelow, past.openAbove]).toEqual([true, false]);
    expect(past.from).toBeCloseTo(END_MARGIN, 6);
  });
});

describe('its drawing', () => {
  it('says in words what it shows, with nothing left unescaped', () => {
    const markup = toMarkup(drawRibbon(plain(ph), 'pH 7 < 8 & "so"'));
    expect(markup).toContain('aria-label="pH 7 &lt; 8 &amp; &quot;so&quot;"');
  });

  it('has a caret for each value, and none where nothing matched', () => {
    const carets = (estimates: RibbonData['estimates']) =>
      toMarkup(drawRibbon({ ...plain(ph), estimates }, '')).split('class="caret"').length - 1;
    const one = { value: 7.4, low: 7.2, high: 7.6 };
    expect([carets([]), carets([one]), carets([one, { value: 8, low: 7.9, high: 8.1 }])]).toEqual([0, 1, 2]);
  });

  it('needs no inline style, which the content policy forbids', () => {
    expect(toMarkup(drawRibbon(plain(ph), ''))).not.toContain(' style=');
  });
});
