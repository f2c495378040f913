/** A scale gets to know another print of the card by one known strip. All simulated. */
import { describe, expect, it } from 'vitest';
import { readStrip } from '../../../src/core/reading/read-strip.ts';
import type { ReadOutcome } from '../../../src/core/reading/reading.ts';
import { withPrintOf } from '../../../src/core/scale/carry-print.ts';
import { parseScale, type StripScale } from '../../../src/core/scale/schema.ts';
import { teachScale } from '../../../src/core/scale/teach.ts';
import { CALIBRATION_PHONES } from '../../bench/accuracy/cases.ts';
import { everydayLight, ownerOf, phoneOf, takeShot } from '../../bench/accuracy/world.ts';
import { stepOf } from '../../pictures/read-samples.ts';
import { randomFrom } from '../../studio/random.ts';
import { PRACTICE_FOUR } from '../../studio/strips/strips.ts';

const ROUNDS = 24;
const KNOWN = { 'total-alkalinity': 90, 'free-chlorine': 2, ph: 7.6 };
const KNOWN_STRIP = [90, 2, 150, 7.6];
const TRUTH = [120, 3.5, 220, 7.3];

function households() {
  const { lengthMm, widthMm, pads } = PRACTICE_FOUR;
  return Array.from({ length: ROUNDS }, (_, round) => {
    const random = randomFrom(83_003 + 977 * round);
    const [old, fresh] = [ownerOf(PRACTICE_FOUR, random.fork('old')), ownerOf(PRACTICE_FOUR, random.fork('new'))];
    const phone = phoneOf(CALIBRATION_PHONES, random.fork('phone'));
    const shotOf = (owner: typeof old, name: string) =>
      takeShot(owner, phone, everydayLight(random.fork(`light of ${name}`)), random.fork(name));
    const teaching = shotOf(old, 'teaching');
    const photos = [{ light: 'shade', card: teaching.card, blocks: teaching.chart() }];
    const scale = teachScale({ ...PRACTICE_FOUR, strip: { lengthMm, widthMm }, pads }, photos, PRACTICE_FOUR.id);
    const beside = shotOf(fresh, 'known strip');
    const known = { light: 'shade', card: beside.card, pads: beside.strip(KNOWN_STRIP).pads, values: KNOWN };
    const later = shotOf(fresh, 'later');
    const strip = later.strip(TRUTH);
    const read = (by: StripScale) => readStrip(later.card, strip, by, 0) as ReadOutcome;
    return { scale, known, read };
  });
}

const SEEN = households().map(({ scale, known, read }) => {
  const carried = withPrintOf(scale, known).scale!;
  return { scale, known, carried, before: read(scale), after: read(carried) };
});

function judged(readings: readonly ReadOutcome[]) {
  return readings.flatMap(({ pads }) =>
    pads.map(({ value, low, high, openBelow, openAbove }, i) => {
      const [blocks, truth] = [PRACTICE_FOUR.pads[i]!.values, TRUTH[i]!];
      return {
        off: Math.abs(stepOf(blocks, value!) - stepOf(blocks, truth)),
        width: stepOf(blocks, high!) - stepOf(blocks, low!),
        holds: (openBelow || truth >= low!) && (openAbove || truth <= high!),
      };
    }),
  );
}
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('a known strip beside another print', () => {
  const [before, after] = [judged(SEEN.map((one) => one.before)), judged(SEEN.map((one) => one.after))];

  it('makes the print known: nothing is said of another one, and intervals are narrower', () => {
    expect(SEEN.every((one) => one.before.warnings.includes('another-print'))).toBe(true);
    expect(SEEN.some((one) => one.after.warnings.includes('another-print'))).toBe(false);
    expect(mean(after.map(({ width }) => width))).toBeLessThan(mean(before.map(({ width }) => width)));
  });

  it('brings readings no further from the truth, and their intervals hold it in nine of ten', () => {
    expect(mean(after.map(({ off }) => off))).toBeLessThanOrEqual(mean(before.map(({ off }) => off)));
    expect(mean(after.map(({ holds }) => Number(holds)))).toBeGreaterThanOrEqual(0.9);
  });

  it('leaves the scale a good file, with the old print known as before', () => {
    const { scale, carried } = SEEN[0]!;
    expect(parseScale(JSON.parse(JSON.stringify(carried)))).toMatchObject({ ok: true });
    expect(carried.teachings[0]).toEqual(scale.teachings[0]);
    expect(carried.teachings[1]!.doubt).toBeGreaterThan(0);
  });
});

describe('what a known strip can’t do', () => {
  const { scale, known } = SEEN[0]!;

  it('needs two values or more that lie on the chart', () => {
    expect(withPrintOf(scale, { ...known, values: { ph: 7.6 } }).reason).toBe('too-few-values');
    expect(withPrintOf(scale, { ...known, values: { ph: 7.6, 'free-chlorine': 30 } }).reason).toBe('too-few-values');
  });

  it('needs a scale that a photo of the chart taught', () => {
    expect(withPrintOf({ ...scale, teachings: [] }, known).reason).toBe('never-taught');
  });
});
