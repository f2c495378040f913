/** What readings corrected by hand teach a scale. */
import { describe, expect, it } from 'vitest';
import {
  doubtLeft,
  learntFrom,
  shiftsOf,
  withKnown,
  withLearnt,
  withoutLearnt,
} from '../../../src/core/scale/learn.ts';
import { type Learnt, parseScale } from '../../../src/core/scale/schema.ts';
import { withPads } from '../../../src/core/scale/edit-scale.ts';
import { phPad, plainScale } from './fixtures.ts';

const PAD = phPad();
const SCALE = { ...plainScale(), pads: [PAD] };
const [FIRST, SECOND] = PAD.blocks as [(typeof PAD.blocks)[number], (typeof PAD.blocks)[number]];
const AT = '2026-07-14T09:30:00Z';
const learnt = (change: Partial<Learnt> = {}): Learnt => ({
  parameter: 'ph',
  value: SECOND.value,
  off: [2, -1, 3],
  sigma: 2,
  teaching: null,
  at: AT,
  ...change,
});
const many = (count: number, change: Partial<Learnt> = {}) => Array.from({ length: count }, () => learnt(change));

describe('a corrected reading', () => {
  it('teaches how far the pad lies from the chart at the known value', () => {
    const lab = [SECOND.lab[0] + 2, SECOND.lab[1] - 1, SECOND.lab[2] + 3] as const;
    const one = learntFrom(
      SCALE,
      { parameter: 'ph', value: SECOND.value, doubt: 0, lab, teaching: null, sigma: 1.5 },
      AT,
    );
    expect(one).toEqual(learnt({ sigma: 1.5 }));
    expect(parseScale({ ...SCALE, learnt: [one] })).toMatchObject({ ok: true });
  });

  it('is doubted more where the other test is', () => {
    const known = { parameter: 'ph', value: SECOND.value, lab: SECOND.lab, teaching: null, sigma: 1.5 } as const;
    const [sure, unsure] = [0.02, 0.3].map((doubt) => learntFrom(SCALE, { ...known, doubt }, AT)!.sigma);
    expect(unsure).toBeGreaterThan(sure! + 1);
  });

  it('teaches nothing beyond the chart, or about a pad that the strip hasn’t', () => {
    const known = { doubt: 0, lab: FIRST.lab, teaching: null, sigma: 1 } as const;
    expect(learntFrom(SCALE, { ...known, parameter: 'ph', value: FIRST.value - 0.1 }, AT)).toBeNull();
    expect(learntFrom(SCALE, { ...known, parameter: 'salt', value: 3000 }, AT)).toBeNull();
  });
});

describe('a scale', () => {
  const known = { parameter: 'ph', value: SECOND.value, doubt: 0, teaching: null, sigma: 2 } as const;
  const lab = [SECOND.lab[0] + 2, SECOND.lab[1] - 1, SECOND.lab[2] + 3] as const;

  it('learns once from one photo, keeps it in its file, and can forget it', () => {
    const { scale } = withKnown(withKnown(SCALE, { ...known, lab: SECOND.lab }, AT).scale!, { ...known, lab }, AT);
    expect(scale!.learnt).toEqual([learnt()]);
    expect(parseScale(JSON.parse(JSON.stringify(scale)))).toMatchObject({ ok: true, scale: { learnt: [learnt()] } });
    expect(withoutLearnt(scale!, { parameter: 'ph', at: 'another day' }).learnt).toHaveLength(1);
    expect(withoutLearnt(scale!, learnt()).learnt).toEqual([]);
  });

  it('learns nothing from what can’t be, and forgets what rests on values that were changed', () => {
    const far = [SECOND.lab[0] + 15, SECOND.lab[1], SECOND.lab[2]] as const;
    expect(withKnown(SCALE, { ...known, lab: far }, AT)).toEqual({ scale: null, reason: 'too-far' });
    expect(withKnown(SCALE, { ...known, lab, value: 99 }, AT)).toEqual({ scale: null, reason: 'beyond-chart' });
    const taught = withKnown(SCALE, { ...known, lab }, AT).scale!;
    const values = PAD.blocks.map(({ value }) => value);
    const edited = (changed: number[]) => withPads(taught, [{ ...PAD, values: changed }]).learnt;
    expect(edited(values)).toHaveLength(1);
    expect(edited(values.map((value) => value + 0.05))).toEqual([]);
  });
});

describe('what was learnt', () => {
  it('moves nothing where there is nothing', () => {
    expect(withLearnt(SCALE, 'ph', PAD.blocks, null)).toEqual(PAD.blocks);
    expect(withLearnt({ learnt: [learnt({ parameter: 'salt' })] }, 'ph', PAD.blocks, null)).toEqual(PAD.blocks);
  });

  it('moves the block it was learnt at most, and never by more than was seen', () => {
    const shifts = shiftsOf([learnt()], PAD.blocks, null);
    shifts[1]!.forEach((shift, c) => {
      expect(shift / learnt().off[c]!).toBeGreaterThan(0.3);
      expect(shift / learnt().off[c]!).toBeLessThan(0.7);
    });
    const sizes = shifts.map((shift) => Math.hypot(...shift));
    expect(Math.max(...sizes)).toBe(sizes[1]);
    expect(sizes.at(-1)).toBeLessThan(sizes[1]!);
  });

  it('is believed the more, the more tests agree, and the less each is doubted', () => {
    const share = (all: readonly Learnt[]) => shiftsOf(all, PAD.blocks, null)[1]![0] / 2;
    // By the arithmetic of a mean of n with its prior: n s^2 / (n s^2 + sigma^2), where all lie at one place.
    const expected = (count: number, sigma: number) => (count * 1.5 ** 2) / (count * 1.5 ** 2 + sigma ** 2);
    for (const count of [1, 3, 10]) expect(share(many(count))).toBeCloseTo(expected(count, 2), 9);
    expect(share(many(3, { sigma: 6 }))).toBeCloseTo(expected(3, 6), 9);
  });

  it('leaves less doubt the more tests agree, most at its block, and all of it about other pads', () => {
    const left = (count: number, parameter: 'ph' | 'salt' = 'ph') =>
      doubtLeft({ learnt: many(count, { parameter }) }, 'ph', PAD.blocks, null);
    // Variance of a mean of n with its prior: sigma^2 / (n s^2 + sigma^2) of the prior's, where all lie at one place.
    for (const count of [1, 3, 10]) expect(left(count)[1]! ** 2).toBeCloseTo(4 / (count * 1.5 ** 2 + 4), 9);
    expect(Math.min(...left(3))).toBe(left(3)[1]);
    expect(left(3, 'salt')).toEqual(PAD.blocks.map(() => 1));
    expect(left(0)).toEqual(PAD.blocks.map(() => 1));
  });

  it('counts for less in another light', () => {
    const size = (teaching: number | null) =>
      Math.hypot(...shiftsOf(many(3, { teaching: 0 }), PAD.blocks, teaching)[1]!);
    expect(size(1)).toBeCloseTo(0.8 * size(0), 9);
  });
});
