import { describe, expect, it } from 'vitest';
import { parseScale } from '../../../src/core/scale/schema.ts';
import { plainScale } from './fixtures.ts';

const broken = (change: (scale: ReturnType<typeof plainScale>) => void) => {
  const scale = plainScale();
  change(scale);
  const parsed = parseScale(JSON.parse(JSON.stringify(scale)));
  return parsed.ok ? [] : parsed.issues.map(({ where, message }) => `${where}: ${message}`);
};

describe('the strip scale', () => {
  it('takes a good scale as it is', () => {
    const parsed = parseScale(plainScale());
    expect(parsed.ok && parsed.scale).toEqual(plainScale());
  });

  it('says what is wrong, and where', () => {
    expect(broken((scale) => (scale.pads[1]!.blocks[2]!.value = 0.5))).toEqual([
      'pad 2, block 3, value: block values must rise along the chart, but 0.5 comes after 1',
    ]);
    expect(broken((scale) => (scale.name = '  '))).toEqual(['name: the scale needs a name']);
    expect(broken((scale) => (scale.pads[0]!.centreMm = 95))).toContain(
      'pad 1, centreMm: the pad lies beyond the strip',
    );
    expect(broken((scale) => (scale.pads[1]!.centreMm = 8))).toEqual([
      'pad 2, centreMm: pads must be in order from the pad end and must not overlap',
    ]);
    expect(broken((scale) => (scale.pads[1]!.parameter = 'ph'))).toEqual(['pad 2, parameter: ph appears twice']);
    expect(broken((scale) => (scale.readBeforeSeconds = 10))).toEqual([
      'readBeforeSeconds: the reading window must end after it begins',
    ]);
    expect(broken((scale) => (scale.pads[0]!.blocks.length = 1))).toEqual(['pad 1: a pad needs at least two blocks']);
    expect(broken((scale) => ((scale as { white: string }).white = 'D50'))).toEqual([
      "white: white must be 'D65': convert the colours first",
    ]);
  });

  it.each([null, 7, 'text', [], {}, { format: 'another' }])('refuses %j in sentences', (input) => {
    const parsed = parseScale(input);
    expect(parsed.ok).toBe(false);
    if (!parsed.ok) parsed.issues.forEach((issue) => expect(issue.message.length).toBeGreaterThan(5));
  });
});
