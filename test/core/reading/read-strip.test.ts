/** From samples to values, on a card and strip as a perfect camera would see them, and on what troubles them. */
import { describe, expect, it } from 'vitest';
import { decodeSrgb, encodeSrgb, type Triple } from '../../../src/core/colour/lab.ts';
import { readStrip } from '../../../src/core/reading/read-strip.ts';
import type { PadReading, ReadOutcome, Reading } from '../../../src/core/reading/reading.ts';
import type { CardSamples, PadSample, PatchSample, StripSamples } from '../../../src/core/samples.ts';
import type { ScalePad, StripScale } from '../../../src/core/scale/schema.ts';
import { teachScale } from '../../../src/core/scale/teach.ts';
import { phPad, plainScale, saturatingPad } from '../scale/fixtures.ts';
import { encoded, evenCard, grey, pad, patch } from './samples.ts';

const HARDNESS: ScalePad = {
  ...phPad(),
  parameter: 'total-hardness',
  unit: 'mg/L',
  centreMm: 21,
  blocks: [0, 100, 200, 400, 800].map((value, i) => ({ value, lab: [75 - 6 * i, -25 + 14 * i, 8 - 5 * i] })),
};
const SCALE: StripScale = {
  ...plainScale(),
  strip: { lengthMm: 90, widthMm: 6, base: [94, 0, 1] },
  pads: [phPad(), saturatingPad(), HARDNESS],
};
/** The third block of each. */
const TRUTH = [7.2, 3, 200];

type Light = (linear: Triple) => Triple;

const PLAIN_LIGHT: Light = (linear) => linear;
const WARM: Light = ([r, g, b]) => [0.95 * r, 0.85 * g, 0.65 * b];
/** Another camera: its channels answer a little to each other’s light; white stays white. */
const CAMERA: Light = ([r, g, b]) => [
  0.9 * r + 0.08 * g + 0.02 * b,
  0.04 * r + 0.94 * g + 0.02 * b,
  0.06 * g + 0.94 * b,
];

function under(light: Light, card = evenCard()): CardSamples {
  const seen = (sample: PatchSample) => ({ ...sample, rgb: seenIn(light, sample.rgb) });
  return {
    ...card,
    neutrals: card.neutrals.map(seen),
    anchors: card.anchors.map(seen),
    paper: card.paper.map(seen),
    slot: card.slot.map(seen),
  };
}

function seenIn(light: Light, rgb: Triple): Triple {
  return light(rgb.map(decodeSrgb) as unknown as Triple).map(encodeSrgb) as unknown as Triple;
}

const THIRD = SCALE.pads.map(({ blocks }): Triple => blocks[2]!.lab);

function strip(light: Light, changes: readonly Partial<PadSample>[] = [], labs = THIRD): StripSamples {
  return {
    base: [0, 1, 2].map((i) => patch(`b${i}`, seenIn(light, encoded([94, 0, 1])))),
    pads: SCALE.pads.map(({ parameter }, i) => {
      const sample = pad(parameter, labs[i]!);
      return { ...sample, rgb: seenIn(light, sample.rgb), ...changes[i] };
    }),
    reversed: false,
  };
}

function read(reading: Reading): ReadOutcome {
  if (reading.outcome === 'refused') throw new Error(reading.reasons.join());
  return reading;
}

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => (made ??= make());
}

const widthOf = ({ low, high }: PadReading) => high! - low!;

function holdsTruth({ pads }: ReadOutcome) {
  pads.forEach(({ matched, low, high, value, deltaE, offScale, alternative }, i) => {
    expect(matched).toBe(true);
    expect(low).toBeLessThan(TRUTH[i]!);
    expect(high).toBeGreaterThan(TRUTH[i]!);
    expect(value).toBeGreaterThan(low!);
    expect(value).toBeLessThan(high!);
    expect(deltaE).toBeLessThan(1);
    expect(offScale).toBeNull();
    expect(alternative).toBeNull();
  });
}

describe('a reading by the greys alone', () => {
  const plain = once(() => read(readStrip(evenCard(), strip(PLAIN_LIGHT), SCALE, 0.12)));

  it('is wider on a phone whose check found it less sure than most', () => {
    const unsure = read(readStrip(evenCard(), strip(PLAIN_LIGHT), SCALE, 0.12, 4));
    unsure.pads.forEach((one, i) => expect(widthOf(one)).toBeGreaterThan(1.03 * widthOf(plain().pads[i]!)));
  });

  it('finds the blocks whose colours it is shown', () => {
    holdsTruth(plain());
    expect(plain().pads.map(({ quantity }) => quantity)).toEqual(['ph', 'free-chlorine', 'total-hardness']);
    // Within a tenth of the way to the next block.
    expect(Math.abs(plain().pads[0]!.value! - 7.2)).toBeLessThan(0.06);
    expect(Math.abs(plain().pads[2]!.value! - 200)).toBeLessThan(20);
    expect(plain()).toMatchObject({ correction: 'neutrals', warnings: [], places: [] });
    expect(plain().quality.marksResidualMm).toBe(0.12);
    expect(plain().quality.neutralResidual).toBeLessThan(0.2);
    expect(plain().quality.shadingPercent).toBeLessThan(2);
    plain().pads.forEach(({ lab, outline }, i) => {
      lab.forEach((value, c) => expect(Math.abs(value - THIRD[i]![c]!)).toBeLessThan(1.5));
      expect(outline).toEqual(pad('', THIRD[0]!).outline);
    });
  });

  it('finds the same in light of another colour', () => {
    const warm = read(readStrip(under(WARM), strip(WARM), SCALE, 0));
    holdsTruth(warm);
    warm.pads.forEach(({ value }, i) => {
      const step = SCALE.pads[i]!.blocks[3]!.value - TRUTH[i]!;
      expect(Math.abs(value! - plain().pads[i]!.value!)).toBeLessThan(0.15 * step);
    });
  });

  it('is less sure where the pads are mottled, or doubted', () => {
    const mottled = read(readStrip(evenCard(), strip(PLAIN_LIGHT, [{ scatter: [0.1, 0.1, 0.1] }]), SCALE, 0));
    expect(widthOf(mottled.pads[0]!)).toBeGreaterThan(1.02 * widthOf(plain().pads[0]!));
    // Of the others it tells a little less.
    expect(widthOf(mottled.pads[2]!) / widthOf(plain().pads[2]!)).toBeCloseTo(1, 1);
    const clipped = read(readStrip(evenCard(), strip(PLAIN_LIGHT, [{ clipped: 0.3 }]), SCALE, 0));
    expect(clipped.warnings).toEqual(['pad-clipped']);
    expect(clipped.places).toEqual([{ code: 'pad-clipped', parameter: 'ph', outline: pad('', THIRD[0]!).outline }]);
    expect(widthOf(clipped.pads[0]!)).toBeGreaterThan(1.07 * widthOf(plain().pads[0]!));
    // Of the others it tells a little less.
    expect(widthOf(clipped.pads[2]!) / widthOf(plain().pads[2]!)).toBeCloseTo(1, 1);
  });

  it('doubts the other pads where one is nowhere on its scale, and says nothing of that one', () => {
    const alien: Triple = [30, 60, -80];
    const { pads, warnings, places } = read(
      readStrip(evenCard(), strip(PLAIN_LIGHT, [], [THIRD[0]!, THIRD[1]!, alien]), SCALE, 0),
    );
    expect(warnings).toEqual(['pad-unmatched']);
    expect(places.map(({ parameter }) => parameter)).toEqual(['total-hardness']);
    expect(pads[2]).toMatchObject({
      matched: false,
      value: null,
      low: null,
      high: null,
      alternative: null,
      offScale: null,
      openBelow: false,
      openAbove: false,
    });
    expect(pads[2]!.deltaE).toBeGreaterThan(12);
    expect(widthOf(pads[0]!)).toBeGreaterThan(1.15 * widthOf(plain().pads[0]!));
  });

  it('is refused where half of the pads or more are nowhere on their scales', () => {
    const alien: Triple = [30, 60, -80];
    const reading = readStrip(evenCard(), strip(PLAIN_LIGHT, [], [alien, THIRD[1]!, alien]), SCALE, 0);
    expect(reading).toMatchObject({ outcome: 'refused', reasons: ['strip-mismatch'] });
    expect(reading.places.map(({ parameter }) => parameter)).toEqual(['ph', 'total-hardness']);
  });

  it('is refused for what the judges object to', () => {
    const card = evenCard();
    const slot = card.slot.map((one, i) => ({ ...one, rgb: i < 10 ? grey(0.1) : grey(0.5) }));
    const reading = readStrip({ ...card, slot }, strip(PLAIN_LIGHT), SCALE, 0);
    expect(reading).toMatchObject({ outcome: 'refused', reasons: ['deep-shadow'] });
    expect(reading.places).toHaveLength(1);
  });

  it('says by an end of the scale that it is open there', () => {
    const ends = [SCALE.pads[0]!.blocks[4]!.lab, SCALE.pads[1]!.blocks[0]!.lab, SCALE.pads[2]!.blocks[2]!.lab];
    const { pads } = read(readStrip(evenCard(), strip(PLAIN_LIGHT, [], ends), SCALE, 0));
    expect(pads.map(({ openBelow, openAbove }) => [openBelow, openAbove])).toEqual([
      [false, true],
      [false, false],
      [false, false],
    ]);
  });

  it('tells a card without colours', () => {
    const card = evenCard({ variant: 'black', anchors: [] });
    expect(read(readStrip(card, strip(PLAIN_LIGHT), SCALE, 0)).warnings).toEqual(['black-only-card']);
  });
});

describe('a reading of a scale that was taught by a photo of a chart', () => {
  const chart = (light: Light, card = under(light)) => ({
    light: 'shade',
    card,
    blocks: SCALE.pads.map(({ blocks }) => blocks.map(({ lab }) => patch('', seenIn(light, encoded(lab))))),
  });
  const request = {
    ...SCALE,
    pads: SCALE.pads.map(({ blocks, ...one }) => ({ ...one, values: blocks.map(({ value }) => value) })),
  };
  const taught = once(() => ({ ...teachScale(request, [chart(PLAIN_LIGHT)], 'taught'), strip: SCALE.strip }));

  it('is led by the card’s colours where another camera sees them differently', () => {
    const reading = read(readStrip(under(CAMERA), strip(CAMERA), taught(), 0));
    expect(reading.correction).toBe('anchors');
    holdsTruth(reading);
  });

  it('makes every pad less sure where one of them lies off its curve; with a practice scale, far off', () => {
    const [l, a, b] = THIRD[2]!;
    const offBy = (off: number) => strip(PLAIN_LIGHT, [], [THIRD[0]!, THIRD[1]!, [l, a + off, b + off]]);
    const widths = (scale: StripScale, off: number) =>
      read(readStrip(evenCard(), offBy(off), scale, 0))
        .pads.slice(0, 2)
        .map(widthOf);
    const [fit, misfit] = [widths(taught(), 0), widths(taught(), 8)];
    misfit.forEach((width, i) => expect(width).toBeGreaterThan(1.1 * fit[i]!));
    const [plain, near, far] = [0, 4, 8].map((off) => widths(SCALE, off));
    near!.forEach((width, i) => expect(width / plain![i]!).toBeCloseTo(1, 1));
    // The second reaches to the end of its chart already.
    expect(far![0]!).toBeGreaterThan(1.1 * plain![0]!);
  });

  it('needs no leading where the same camera saw the same', () => {
    const reading = read(readStrip(evenCard(), strip(PLAIN_LIGHT), taught(), 0));
    holdsTruth(reading);
    expect(reading.warnings).toEqual([]);
  });

  it('goes by the photo that saw the card most like today’s', () => {
    const two = { ...teachScale(request, [chart(CAMERA), chart(PLAIN_LIGHT)], 'taught'), strip: SCALE.strip };
    const [one, other] = [PLAIN_LIGHT, CAMERA].map((light) => read(readStrip(under(light), strip(light), two, 0)));
    holdsTruth(one!);
    holdsTruth(other!);
  });

  it.each([
    ['a card without colours', evenCard({ anchors: [] })],
    ['eight colour patches', evenCard({ anchors: evenCard().anchors.slice(0, 8) })],
  ])('is by the greys alone, and less sure, with %s', (_name, card) => {
    const alone = read(readStrip(card, strip(PLAIN_LIGHT), taught(), 0));
    expect(alone.correction).toBe('neutrals');
    holdsTruth(alone);
    const led = read(readStrip(evenCard(), strip(PLAIN_LIGHT), taught(), 0));
    expect(widthOf(alone.pads[0]!)).toBeGreaterThan(1.1 * widthOf(led.pads[0]!));
  });

  it('is led by the patches of another version of the card too, but less sure', () => {
    const other = read(readStrip(evenCard({ version: 2 }), strip(PLAIN_LIGHT), taught(), 0));
    expect(other).toMatchObject({ correction: 'anchors', warnings: ['another-print'] });
    holdsTruth(other);
    const led = read(readStrip(evenCard(), strip(PLAIN_LIGHT), taught(), 0));
    expect(widthOf(other.pads[0]!)).toBeGreaterThan(1.1 * widthOf(led.pads[0]!));
  });

  it('says so when the card is another print', () => {
    const card = evenCard();
    // Patches of other colours, each in its own way, as no light or camera changes them.
    const anchors = card.anchors.map((one, i) => ({
      ...one,
      rgb: one.rgb.map((level, c) => Math.min(1, level * (1 + 0.12 * Math.sin(2.4 * i + 2 * c)))) as unknown as Triple,
    }));
    const reading = read(readStrip({ ...card, anchors }, strip(PLAIN_LIGHT), taught(), 0));
    expect(reading.warnings).toContain('another-print');
    expect(reading.correction).toBe('neutrals');
    holdsTruth(reading);
  });
});
