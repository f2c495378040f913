import { describe, expect, it } from 'vitest';
import { encodeSrgb, type Triple } from '../../../src/core/colour/lab.ts';
import { addPhoto } from '../../../src/core/scale/add-photo.ts';
import { parseScale, type StripScale } from '../../../src/core/scale/schema.ts';
import { type TaughtPhoto, teachScale, type TeachRequest } from '../../../src/core/scale/teach.ts';
import { evenCard, grey, patch } from '../reading/samples.ts';

/** Grey blocks, told by their place on the chart: a photo sees each a little brighter or darker. */
const BLOCKS = [
  [0.6, 0.2, 0.4],
  [0.8, 0.5],
];

/** Under so much light on card and chart; and the blocks alone so much brighter, as another print of the chart. */
function photo(light: number, times = 1): TaughtPhoto {
  const dim = ({ rgb, ...rest }: ReturnType<typeof patch>) => ({
    ...rest,
    rgb: rgb.map((level) => encodeSrgb(light * decode(level))) as unknown as Triple,
  });
  const card = evenCard();
  return {
    light: `light ${light}`,
    card: {
      ...card,
      version: 3,
      neutrals: card.neutrals.map(dim),
      anchors: card.anchors.map(dim),
      paper: card.paper.map(dim),
      slot: card.slot.map(dim),
    },
    blocks: BLOCKS.map((row) => row.map((level) => dim(patch('', grey(level * times))))),
  };
}

/** IEC 61966-2-1, above its straight piece. */
function decode(encoded: number): number {
  return ((encoded + 0.055) / 1.055) ** 2.4;
}

/** CIE 015:2018 for a grey. */
function lightness(reflectance: number): number {
  return 116 * Math.cbrt(reflectance) - 16;
}

const labsOf = ({ pads }: StripScale) => pads.map(({ blocks }) => blocks.map(({ lab }) => lab));

/** A zero may have one. */
function withoutSigns(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value));
}

const REQUEST: TeachRequest = {
  name: 'Garden strip',
  dipSeconds: 2,
  readAfterSeconds: 20,
  readBeforeSeconds: 40,
  strip: { lengthMm: 80, widthMm: 5 },
  pads: [
    // As they stood on the chart, from its other end and one out of order.
    { parameter: 'ph', unit: 'pH', centreMm: 5, widthMm: 5, heightMm: 5, values: [8.4, 6.8, 7.2] },
    { parameter: 'free-chlorine', unit: 'mg/L', centreMm: 13, widthMm: 5, heightMm: 5, values: [0, 3] },
  ],
};

describe('teaching a scale', () => {
  const scale = teachScale(REQUEST, [photo(0.9)], 'garden');

  it('makes a scale that passes for one, with what was asked for', () => {
    const written: unknown = JSON.parse(JSON.stringify(scale));
    expect(parseScale(written)).toEqual({ ok: true, scale: written });
    expect(scale).toMatchObject({
      format: 'dipwise-scale',
      id: 'garden',
      name: 'Garden strip',
      origin: 'taught',
      white: 'D65',
      strip: { lengthMm: 80, widthMm: 5 },
      dipSeconds: 2,
      readAfterSeconds: 20,
      readBeforeSeconds: 40,
    });
    expect(scale.pads[0]).toMatchObject({ parameter: 'ph', unit: 'pH', centreMm: 5, widthMm: 5, heightMm: 5 });
  });

  it('brings the blocks into the order of their values, with their colours', () => {
    expect(scale.pads.map(({ blocks }) => blocks.map(({ value }) => value))).toEqual([
      [6.8, 7.2, 8.4],
      [0, 3],
    ]);
    // 0.2, 0.4 and 0.6 of the light, as the greys of the card tell it to within a unit.
    const expected = [
      [0.2, 0.4, 0.6],
      [0.8, 0.5],
    ];
    expected.forEach((row, pad) =>
      row.forEach((reflectance, i) => {
        const [l, a, b] = scale.pads[pad]!.blocks[i]!.lab;
        expect(Math.abs(l - lightness(reflectance))).toBeLessThan(1);
        expect(Math.hypot(a, b)).toBeLessThan(0.5);
      }),
    );
  });

  it('keeps the photo as a teaching: the card’s colours by id, and the blocks in the same order', () => {
    const [teaching] = scale.teachings;
    expect(teaching).toMatchObject({ cardVersion: 3, light: 'light 0.9' });
    expect(withoutSigns(teaching!.blocks)).toEqual(withoutSigns(labsOf(scale)));
    const card = evenCard();
    expect(Object.keys(teaching!.neutrals)).toEqual(card.neutrals.map(({ id }) => id));
    expect(Object.keys(teaching!.anchors)).toEqual(card.anchors.map(({ id }) => id));
    // Bare paper: 0.86.
    for (const value of teaching!.neutrals['nt1']!) expect(Math.abs(value - 0.86)).toBeLessThan(0.02);
  });

  it('writes no more digits than mean something', () => {
    const [{ blocks, neutrals }] = scale.teachings as [(typeof scale.teachings)[number]];
    for (const value of blocks.flat(2)) expect(String(value)).toMatch(/^-?\d+(\.\d{1,2})?$/);
    for (const value of Object.values(neutrals).flat()) expect(String(value)).toMatch(/^-?\d+(\.\d{1,5})?$/);
  });

  it('takes the mean over photos', () => {
    const two = teachScale(REQUEST, [photo(0.9), photo(0.7, 0.9)], 'garden');
    expect(two.teachings).toHaveLength(2);
    const [first, second] = two.teachings;
    expect(first!.blocks[0]![1]![0] - second!.blocks[0]![1]![0]).toBeGreaterThan(1.5);
    two.pads.forEach(({ blocks }, k) =>
      blocks.forEach(({ lab }, i) =>
        lab.forEach((value, c) =>
          expect(value).toBeCloseTo((first!.blocks[k]![i]![c]! + second!.blocks[k]![i]![c]!) / 2, 9),
        ),
      ),
    );
  });
});

describe('adding a photo', () => {
  it('adds a teaching to a scale, whose blocks become the mean of all', () => {
    const taught = teachScale(REQUEST, [photo(0.9), photo(0.8)], 'garden');
    // In the order of the scale's values.
    const further = photo(0.7, 0.8);
    const ordered = { ...further, blocks: [[1, 2, 0].map((i) => further.blocks[0]![i]!), further.blocks[1]!] };
    const scale = addPhoto(taught, ordered);
    expect(scale.teachings).toHaveLength(3);
    expect(scale.teachings.slice(0, 2)).toEqual(taught.teachings);
    expect(scale.teachings[2]).toMatchObject({ light: 'light 0.7', cardVersion: 3 });
    scale.pads.forEach(({ blocks }, k) =>
      blocks.forEach(({ value, lab }, i) => {
        expect(value).toBe(taught.pads[k]!.blocks[i]!.value);
        const mean = (c: number) => scale.teachings.reduce((sum, one) => sum + one.blocks[k]![i]![c]!, 0) / 3;
        lab.forEach((one, c) => expect(one).toBeCloseTo(mean(c), 9));
      }),
    );
    expect(scale.pads[0]!.blocks[0]!.lab[0]).toBeLessThan(taught.pads[0]!.blocks[0]!.lab[0] - 1);
    expect(parseScale(scale).ok).toBe(true);
  });

  it('is the first teaching of a scale that has none', () => {
    const bare = { ...teachScale(REQUEST, [photo(0.9)], 'garden'), teachings: [] };
    const further = photo(0.7);
    const ordered = { ...further, blocks: [[1, 2, 0].map((i) => further.blocks[0]![i]!), further.blocks[1]!] };
    const scale = addPhoto(bare, ordered);
    expect(scale.teachings).toHaveLength(1);
    expect(withoutSigns(labsOf(scale))).toEqual(withoutSigns(scale.teachings[0]!.blocks));
  });

  it('beside another print of the card measures that print’s greys by themselves', () => {
    const taught = teachScale(REQUEST, [photo(0.9)], 'garden');
    const further = photo(0.7);
    const ordered = { ...further, blocks: [[1, 2, 0].map((i) => further.blocks[0]![i]!), further.blocks[1]!] };
    const other = { ...ordered, card: { ...ordered.card, printMark: 5 } };
    const known = {
      ...taught,
      teachings: taught.teachings.map((one) => ({ ...one, printMark: 6, print: { dotGain: 0.4, black: 0.2 } })),
    };
    expect(addPhoto(known, other).teachings[1]).toMatchObject({ printMark: 5 });
    const gainOf = (scale: StripScale) => scale.teachings[1]!.print.dotGain;
    // The known print's gain is believed beforehand, where it is that print.
    expect(gainOf(addPhoto(known, other))).toBeLessThan(0.3);
    expect(gainOf(addPhoto(known, { ...other, card: { ...other.card, printMark: 6 } }))).toBeGreaterThan(0.35);
  });
});
