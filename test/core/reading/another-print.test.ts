/** A scale taught with one print of the card, and photos beside that print and beside others. All simulated. */
import { describe, expect, it } from 'vitest';
import { readStrip } from '../../../src/core/reading/read-strip.ts';
import type { Reading } from '../../../src/core/reading/reading.ts';
import { teachScale } from '../../../src/core/scale/teach.ts';
import { CALIBRATION_PHONES } from '../../bench/accuracy/cases.ts';
import { everydayLight, ownerOf, phoneOf, takeShot } from '../../bench/accuracy/world.ts';
import { randomFrom } from '../../studio/random.ts';
import { PRACTICE_FOUR } from '../../studio/strips/strips.ts';

const TRUTH = [95, 1.8, 180, 7.4];
const ROUNDS = 24;

function readings(isSamePrint: boolean): Reading[] {
  return Array.from({ length: ROUNDS }, (_, round) => {
    const random = randomFrom(61_001 + 977 * round);
    const owner = ownerOf(PRACTICE_FOUR, random.fork('owner'));
    const phone = phoneOf(CALIBRATION_PHONES, random.fork('phone'));
    const teaching = takeShot(owner, phone, everydayLight(random.fork('light')), random.fork('teaching'));
    const { lengthMm, widthMm, pads } = PRACTICE_FOUR;
    const photos = [{ light: 'shade', card: teaching.card, blocks: teaching.chart() }];
    const scale = teachScale({ ...PRACTICE_FOUR, strip: { lengthMm, widthMm }, pads }, photos, PRACTICE_FOUR.id);
    const print = isSamePrint ? owner : { ...owner, printer: ownerOf(PRACTICE_FOUR, random.fork('other')).printer };
    const shot = takeShot(print, phone, everydayLight(random.fork('other light')), random.fork('shot'));
    return readStrip(shot.card, shot.strip(TRUTH), scale, 0);
  });
}

const warned = (all: readonly Reading[]) =>
  all.filter((one) => one.outcome === 'read' && one.warnings.includes('another-print'));

describe('another print of the card', () => {
  it('is told by its colours more often than not, and never led by', () => {
    const told = warned(readings(false));
    expect(told.length).toBeGreaterThan(ROUNDS / 2);
    for (const one of told) expect(one).toMatchObject({ correction: 'neutrals' });
  });

  it('is not suspected in the print that taught the scale, in another light', () => {
    expect(warned(readings(true)).length).toBeLessThanOrEqual(ROUNDS / 12);
  });
});
