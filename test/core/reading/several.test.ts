/** Three photos of one strip against one of them. All simulated. */
import { describe, expect, it } from 'vitest';
import { readStrip } from '../../../src/core/reading/read-strip.ts';
import type { ReadOutcome } from '../../../src/core/reading/reading.ts';
import { readTogether } from '../../../src/core/reading/several.ts';
import { teachScale } from '../../../src/core/scale/teach.ts';
import { CALIBRATION_PHONES } from '../../bench/accuracy/cases.ts';
import { without } from '../../bench/accuracy/causes.ts';
import { everydayLight, ownerOf, phoneOf, takeShot } from '../../bench/accuracy/world.ts';
import { stepOf } from '../../pictures/read-samples.ts';
import { randomFrom } from '../../studio/random.ts';
import { PRACTICE_FOUR } from '../../studio/strips/strips.ts';

const TRUTH = [95, 1.8, 180, 7.4];
const ROUNDS = 20;
const PHOTOS = 3;
/** The strip is the same in every photo, so its dyes don't vary between them. */
const CAUSES = without('dye');

function strips() {
  const { lengthMm, widthMm, pads } = PRACTICE_FOUR;
  return Array.from({ length: ROUNDS }, (_, round) => {
    const random = randomFrom(71_003 + 977 * round);
    const owner = ownerOf(PRACTICE_FOUR, random.fork('owner'));
    const phone = phoneOf(CALIBRATION_PHONES, random.fork('phone'));
    const teaching = takeShot(owner, phone, everydayLight(random.fork('light')), random.fork('teaching'));
    const photos = [{ light: 'shade', card: teaching.card, blocks: teaching.chart() }];
    const scale = teachScale({ ...PRACTICE_FOUR, strip: { lengthMm, widthMm }, pads }, photos, PRACTICE_FOUR.id);
    const light = everydayLight(random.fork('other light'));
    const readings = Array.from({ length: PHOTOS }, (__, i) => {
      const shot = takeShot(owner, phone, light, random.fork(`photo ${i}`), CAUSES);
      return readStrip(shot.card, shot.strip(TRUTH), scale, 0);
    }).filter((reading) => reading.outcome === 'read');
    return { scale, readings };
  });
}

const SEEN = strips();
const judged = (readings: readonly ReadOutcome[]) =>
  readings.flatMap(({ pads }) =>
    pads.map(({ value, low, high, openBelow, openAbove }, i) => {
      const blocks = PRACTICE_FOUR.pads[i]!.values;
      return {
        off: Math.abs(stepOf(blocks, value!) - stepOf(blocks, TRUTH[i]!)),
        width: stepOf(blocks, high!) - stepOf(blocks, low!),
        holds: (openBelow || TRUTH[i]! >= low!) && (openAbove || TRUTH[i]! <= high!),
      };
    }),
  );
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('three photos of one strip', () => {
  const alone = judged(SEEN.map(({ readings }) => readings[0]!));
  const together = judged(SEEN.map(({ readings, scale }) => readTogether(readings, scale)));

  it('come nearer to the truth than one, and say so with narrower intervals', () => {
    expect(mean(together.map(({ off }) => off))).toBeLessThan(mean(alone.map(({ off }) => off)));
    expect(mean(together.map(({ width }) => width))).toBeLessThan(0.97 * mean(alone.map(({ width }) => width)));
  });

  it('still hold the truth in nine of ten', () => {
    expect(mean(together.map(({ holds }) => Number(holds)))).toBeGreaterThanOrEqual(0.9);
  });

  it('are no surer than they agree', () => {
    const { readings, scale } = SEEN[0]!;
    const [one] = readings as [ReadOutcome];
    const shifted = { ...one, pads: one.pads.map((pad) => ({ ...pad, value: pad.high, high: pad.high! * 1.2 })) };
    const torn = readTogether([one, shifted], scale).pads[3]!;
    const agreed = readTogether([one, one], scale).pads[3]!;
    expect(torn.high! - torn.low!).toBeGreaterThan(agreed.high! - agreed.low!);
  });

  it('are never taken for photos of several strips', () => {
    for (const { readings, scale } of SEEN) {
      expect(readTogether(readings, scale).warnings).not.toContain('photos-disagree');
    }
  });

  it('of which one is of another strip are told apart, and the interval holds both', () => {
    const { readings, scale } = SEEN[0]!;
    const [one] = readings as [ReadOutcome];
    const ph = { ...one.pads[3]!, value: 6.4, low: 6.3, high: 6.5, offScale: 'below' as const };
    const mixed = readTogether([one, { ...one, pads: [...one.pads.slice(0, 3), ph] }], scale);
    expect(mixed.warnings).toContain('photos-disagree');
    expect(mixed.pads[3]).toMatchObject({ low: 6.3, high: one.pads[3]!.high, offScale: null, openBelow: true });
    expect(mixed.pads[0]!.low).toBeCloseTo(readTogether([one, one], scale).pads[0]!.low!, 9);
  });

  it('come to the same one after the other as all at once', () => {
    const { readings, scale } = SEEN[0]!;
    const [one, two, three] = readings as [ReadOutcome, ReadOutcome, ReadOutcome];
    const stepwise = readTogether([readTogether([one, two], scale), three], scale);
    expect(stepwise).toEqual(readTogether([one, two, three], scale));
    expect(stepwise.together).toEqual([one, two, three]);
  });

  it('is the one where there is one, and an error where there is none', () => {
    const { readings, scale } = SEEN[0]!;
    expect(readTogether([readings[0]!], scale)).toBe(readings[0]);
    expect(() => readTogether([], scale)).toThrow(RangeError);
  });
});
