/** A scale taught with one print of the card, and photos beside that print and beside another. All simulated. */
import { describe, expect, it } from 'vitest';
import { readStrip } from '../../../src/core/reading/read-strip.ts';
import type { Reading } from '../../../src/core/reading/reading.ts';
import { teachScale } from '../../../src/core/scale/teach.ts';
import { CALIBRATION_PHONES } from '../../bench/accuracy/cases.ts';
import { everydayLight, type Owner, ownerOf, phoneOf, takeShot } from '../../bench/accuracy/world.ts';
import { randomFrom } from '../../studio/random.ts';
import { PRACTICE_FOUR } from '../../studio/strips/strips.ts';

const TRUTH = [95, 1.8, 180, 7.4];
const ROUNDS = 24;

function readings(cards: (owner: Owner, other: Owner) => readonly [taught: Owner, read: Owner]): Reading[] {
  return Array.from({ length: ROUNDS }, (_, round) => {
    const random = randomFrom(61_001 + 977 * round);
    const owner = ownerOf(PRACTICE_FOUR, random.fork('owner'));
    const [taught, read] = cards(owner, ownerOf(PRACTICE_FOUR, random.fork('other')));
    const phone = phoneOf(CALIBRATION_PHONES, random.fork('phone'));
    const teaching = takeShot(taught, phone, everydayLight(random.fork('light')), random.fork('teaching'));
    const { lengthMm, widthMm, pads } = PRACTICE_FOUR;
    const photos = [{ light: 'shade', card: teaching.card, blocks: teaching.chart() }];
    const scale = teachScale({ ...PRACTICE_FOUR, strip: { lengthMm, widthMm }, pads }, photos, PRACTICE_FOUR.id);
    const shot = takeShot(read, phone, everydayLight(random.fork('other light')), random.fork('shot'));
    return readStrip(shot.card, shot.strip(TRUTH), scale, 0);
  });
}

const warned = (all: readonly Reading[]) =>
  all.filter((one) => one.outcome === 'read' && one.warnings.includes('another-print'));
const unmarked = (owner: Owner): Owner => ({ ...owner, printMark: null });

describe('another print of the card', () => {
  it('is told by its mark, every time; its patches lead, and intervals hold nine of ten', () => {
    const told = warned(readings((owner, other) => [owner, other]));
    expect(told).toHaveLength(ROUNDS);
    const pads = told.flatMap((one) =>
      one.outcome === 'read' ? one.pads.map((pad, i) => ({ pad, truth: TRUTH[i]! })) : [],
    );
    const held = pads.filter(({ pad, truth }) => {
      return (pad.openBelow || truth >= pad.low!) && (pad.openAbove || truth <= pad.high!);
    });
    expect(held.length).toBeGreaterThanOrEqual(0.9 * pads.length);
  });

  it('is never suspected in the print that taught the scale, in whatever light', () => {
    expect(warned(readings((owner) => [owner, owner]))).toHaveLength(0);
  });

  // Colours hardly tell prints apart on phones that turn hues: they are asked for what fits no map at all.
  it('is hardly ever suspected in the same print without a mark', () => {
    expect(warned(readings((owner) => [unmarked(owner), unmarked(owner)])).length).toBeLessThanOrEqual(1);
  });
});
