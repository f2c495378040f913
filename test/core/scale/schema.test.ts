import { describe, expect, it } from 'vitest';
import { faultLine } from '../../../src/words/faults.ts';
import { parseScale } from '../../../src/core/scale/schema.ts';
import { plainScale } from './fixtures.ts';

const broken = (change: (scale: ReturnType<typeof plainScale>) => void) => {
  const scale = plainScale();
  change(scale);
  const parsed = parseScale(JSON.parse(JSON.stringify(scale)));
  return parsed.ok ? [] : parsed.issues.map(faultLine);
};

describe('the strip scale', () => {
  it('takes a good scale as it is', () => {
    const parsed = parseScale(plainScale());
    expect(parsed.ok && parsed.scale).toEqual(plainScale());
  });

  it('leaves out of its name what the logbook can’t hold', () => {
    const parsed = parseScale({ ...plainScale(), name: '  my\u0000 own\tstrips\r\n' });
    expect(parsed.ok && parsed.scale.name).toBe('my own strips');
  });

  it('says what is wrong, and where', () => {
    expect(broken((scale) => (scale.pads[1]!.blocks[2]!.value = 0.5))).toEqual([
      'pad 2, block 3, value: block values must rise along the chart, but 0.5 comes after 1',
    ]);
    expect(broken((scale) => (scale.name = '  '))).toEqual(['name: the scale needs a name, of at most 120 letters']);
    expect(broken((scale) => (scale.pads[0]!.centreMm = 95))).toContain(
      'pad 1, centreMm: the pad lies beyond the strip',
    );
    expect(broken((scale) => (scale.pads[1]!.centreMm = 8))).toEqual([
      'pad 2, centreMm: pads must be in order from the pad end and must not overlap',
    ]);
    expect(broken((scale) => Object.assign(scale.pads[1]!, { parameter: 'ph', unit: 'pH' }))).toEqual([
      'pad 2, parameter: ph appears twice',
    ]);
    // As the logbook has it: what a scale reads can be kept, and brought back.
    expect(broken((scale) => (scale.pads[1]!.unit = 'pH'))).toEqual(["pad 2, unit: free-chlorine has the unit 'mg/L'"]);
    expect(broken((scale) => (scale.pads[1]!.blocks.at(-1)!.value = 100_000))).toEqual([]);
    expect(broken((scale) => (scale.pads[1]!.blocks.at(-1)!.value = 100_001))).toHaveLength(1);
    expect(broken((scale) => (scale.pads[0]!.blocks.at(-1)!.value = 6000))).toEqual([
      'pad 1, block 5, value: a pH can’t be above 14, but a block says 6,000',
    ]);
    expect(broken((scale) => (scale.readBeforeSeconds = 10))).toEqual([
      'readBeforeSeconds: the reading window must end after it begins',
    ]);
    expect(broken((scale) => (scale.pads[0]!.blocks.length = 1))).toEqual([
      'pad 1: a pad needs at least two blocks, and at most 40',
    ]);
    expect(broken((scale) => ((scale as { white: string }).white = 'D50'))).toEqual([
      "white: white must be 'D65': convert the colours first",
    ]);
  });

  it.each([null, 7, 'text', [], {}, { format: 'another' }])('refuses %j in sentences', (input) => {
    const parsed = parseScale(input);
    expect(parsed.ok).toBe(false);
    if (!parsed.ok) parsed.issues.forEach((issue) => expect(faultLine(issue).length).toBeGreaterThan(5));
  });

  /** What a plain scale becomes with one value put somewhere: 'pads.0.centreMm'. */
  const withValue = (path: string, value: unknown) => {
    const scale = { ...plainScale(), pads: [plainScale().pads[0]!] } as Record<string, unknown>;
    const steps = path.split('.');
    let place = scale;
    for (const step of steps.slice(0, -1)) place = place[step] as Record<string, unknown>;
    place[steps.at(-1)!] = value;
    const parsed = parseScale(JSON.parse(JSON.stringify(scale)));
    return parsed.ok ? [] : parsed.issues.map(faultLine);
  };

  // The ends that the sentences name belong to what is allowed.
  it.each([
    ['strip.lengthMm', [40, 120], [39.9, 120.1]],
    ['strip.widthMm', [3, 12], [2.9, 12.1]],
    ['pads.0.widthMm', [0.1, 10], [0, 31, -1]],
    ['pads.0.heightMm', [0.1, 20], [0, 20.1]],
    ['pads.0.centreMm', [0, 87.5], [-0.1, 87.6, 201]],
    ['pads.0.blocks.0.value', [0, 6.7], [-0.1]],
    ['pads.0.blocks.4.value', [14], [14.1]],
    [
      'pads.0.blocks.0.lab',
      [
        [0, -150, -150],
        [110, 150, 150],
      ],
      [
        [-1, 0, 0],
        [111, 0, 0],
        [50, 151, 0],
        [50, 0, -151],
        [50, 0],
      ],
    ],
    ['pads.0.dry', [[100, 0, 0]], [[111, 0, 0], 'white']],
    ['dipSeconds', [0, 3600], [-1, 3601, 'one']],
    ['readAfterSeconds', [0, 29], [-1, 30]],
    ['readBeforeSeconds', [16, 3600], [15, 3601]],
    ['id', ['a', '7', 'a-b', 'x'.repeat(64)], ['', 'A', '-a', 'a b', 'x'.repeat(65), 'é']],
    ['name', ['x', 'x'.repeat(120)], ['', ' ', 'x'.repeat(121)]],
    ['origin', ['practice', 'taught'], ['bought']],
    ['version', [1], [0, 2, '1']],
    ['format', ['dipwise-scale'], ['', 'scale']],
    ['pads.0.unit', ['pH'], ['ppm', 'mg/L']],
    ['pads.0.parameter', ['ph'], ['bromine', 'salt']],
  ])('%s: takes %j, refuses %j in a sentence that says where', (path, good, bad) => {
    for (const value of good) expect(withValue(path, value), JSON.stringify(value)).toEqual([]);
    for (const value of bad) {
      const said = withValue(path, value);
      expect(said.length, JSON.stringify(value)).toBeGreaterThan(0);
      for (const line of said) expect(line).toMatch(/^[^:]+: .{8,}/);
    }
  });

  it.each([
    ['strip.lengthMm', 39, 'strip, lengthMm: the length of the strip must be at least 40 mm'],
    ['strip.widthMm', 'wide', 'strip, widthMm: the width of the strip must be a number'],
    ['pads.0.widthMm', 0, 'pad 1, widthMm: a length must be more than 0 mm'],
    ['pads.0.heightMm', 21, 'pad 1, heightMm: a width must be at most 20 mm'],
    ['dipSeconds', -1, 'dipSeconds: the dip can’t be less than 0 s'],
    ['dipSeconds', 3601, 'dipSeconds: the dip must be at most 3,600 s'],
    ['pads.0.blocks.2.lab', [50, 0, null], /^pad 1, block 3, lab, 3: b\* must be a number$/],
    ['pads.0.parameter', 'x', /what a pad measures must be one of: free-chlorine, total-chlorine, ph,/],
  ])('%s of %j: %s', (path, value, sentence) => {
    expect(withValue(path, value)).toEqual([expect.stringMatching(sentence) as string]);
  });

  it('has a pad', () => {
    expect(withValue('pads', [])).toEqual(['the scale needs at least one pad, and at most 12']);
    expect(withValue('pads', 7)).toHaveLength(1);
  });

  it('has at most twelve pads and forty blocks, which may touch', () => {
    const pads = (count: number) =>
      Array.from({ length: count }, (_, i) => ({ ...plainScale().pads[0]!, centreMm: 2.5 + 5 * i, parameter: 'ph' }));
    expect(withValue('pads', pads(13)).some((line) => line.startsWith('the scale needs'))).toBe(true);
    const [one, two] = plainScale().pads;
    expect(
      withValue('pads', [
        { ...one!, centreMm: 5 },
        { ...two!, centreMm: 10 },
      ]),
    ).toEqual([]);
    expect(
      withValue('pads', [
        { ...one!, centreMm: 5 },
        { ...two!, centreMm: 9.9 },
      ]),
    ).toHaveLength(1);
    const blocks = (count: number) =>
      Array.from({ length: count }, (_, i) => ({ value: i / 4, lab: [90 - i, 0, 0] as [number, number, number] }));
    expect(withValue('pads.0.blocks', blocks(40))).toEqual([]);
    expect(withValue('pads.0.blocks', blocks(41))).toEqual(['pad 1: a pad needs at least two blocks, and at most 40']);
    expect(withValue('pads.0.blocks', blocks(2))).toEqual([]);
    expect(withValue('pads.0.blocks.1.value', 6.2)).toEqual([
      'pad 1, block 2, value: block values must rise along the chart, but 6.2 comes after 6.2',
    ]);
  });

  it('has a colour for every block of every pad in each teaching photo', () => {
    const lab = [50, 0, 0];
    const teaching = (...counts: number[]) => [
      {
        cardVersion: 1,
        print: { dotGain: 0.2, black: 0.05 },
        neutrals: {},
        anchors: { at1: [0.1, 0.2, 0.3] },
        blocks: counts.map((count) => Array<number[]>(count).fill(lab)),
      },
    ];
    expect(withValue('teachings', teaching(5))).toEqual([]);
    const sentence = 'teachings, 1: a teaching photo must have a colour for every block of every pad';
    for (const counts of [[4], [6], [], [5, 5]])
      expect(withValue('teachings', teaching(...counts))).toEqual([sentence]);
    const [good] = teaching(5);
    for (const bad of [
      { ...good, cardVersion: 0 },
      { ...good, cardVersion: 32 },
      { ...good, cardVersion: 1.5 },
      { ...good, light: 'x'.repeat(81) },
      { ...good, print: { dotGain: 1.1, black: 0.05 } },
      { ...good, print: { dotGain: -0.6, black: 0.05 } },
      { ...good, print: { dotGain: 0.2, black: 1.1 } },
      { ...good, print: { dotGain: 0.2, black: 0.05, tint: [1.1, 0] } },
      { ...good, anchors: { at1: [0.1, 0.2] } },
      { ...good, anchors: { at1: [4.1, 0, 0] } },
      { ...good, neutrals: { nt1: [0, -1.1, 0] } },
      { ...good, neutrals: { ['x'.repeat(13)]: [0, 0, 0] } },
    ]) {
      expect(withValue('teachings', [bad]).length, JSON.stringify(bad)).toBeGreaterThan(0);
    }
    expect(withValue('teachings', Array(20).fill(good))).toEqual([]);
    expect(withValue('teachings', Array(21).fill(good))).toHaveLength(1);
    const parsed = parseScale({ ...plainScale(), pads: [plainScale().pads[0]!], teachings: [good] });
    expect(parsed.ok && parsed.scale.teachings[0]!.light).toBe('');
  });
});
