/** Waters whose values lie beyond the chart's ends, and some that don't. All simulated, phones of the report set. */
import { describe, expect, it } from 'vitest';
import { readStrip } from '../../../src/core/reading/read-strip.ts';
import type { PadReading } from '../../../src/core/reading/reading.ts';
import { teachScale } from '../../../src/core/scale/teach.ts';
import { REPORT_PHONES } from '../../bench/accuracy/cases.ts';
import { everydayLight, ownerOf, phoneOf, takeShot } from '../../bench/accuracy/world.ts';
import { randomFrom } from '../../studio/random.ts';
import { STRIPS } from '../../studio/strips/strips.ts';

const ROUNDS = 20;

/** @param stepsOf where a pad's water lies, in steps from the first of its values to the last and beyond */
function padsAt(stepsOf: (last: number, share: number) => number): PadReading[] {
  return Array.from({ length: ROUNDS }, (_, round) => {
    const random = randomFrom(88_001 + 977 * round);
    const strip = STRIPS[round % STRIPS.length]!;
    const owner = ownerOf(strip, random.fork('owner'));
    const phone = phoneOf(REPORT_PHONES, random.fork('phone'));
    const teaching = takeShot(owner, phone, everydayLight(random.fork('light')), random.fork('teaching'));
    const { lengthMm, widthMm, pads } = strip;
    const photos = [{ light: 'shade', card: teaching.card, blocks: teaching.chart() }];
    const scale = teachScale({ ...strip, strip: { lengthMm, widthMm }, pads }, photos, strip.id);
    const shot = takeShot(owner, phone, everydayLight(random.fork('other light')), random.fork('shot'));
    const values = pads.map(({ values: blocks }) => {
      const at = stepsOf(blocks.length - 1, random.next());
      const i = Math.min(blocks.length - 2, Math.floor(at));
      return blocks[i]! + (at - i) * (blocks[i + 1]! - blocks[i]!);
    });
    const reading = readStrip(shot.card, shot.strip(values), scale, 0);
    return reading.outcome === 'read' ? reading.pads.filter(({ matched }) => matched) : [];
  }).flat();
}

describe('values beyond the chart', () => {
  it('by 0.7 steps and more leave the interval open there, and four in five are told', () => {
    const pads = padsAt((last, share) => last + 0.7 + 0.8 * share);
    expect(pads.length).toBeGreaterThan(3 * ROUNDS);
    expect(pads.filter(({ openAbove }) => !openAbove)).toEqual([]);
    expect(pads.filter(({ offScale }) => offScale === 'above').length / pads.length).toBeGreaterThanOrEqual(0.8);
  });

  it('are seldom told where the value is on it', () => {
    const pads = padsAt((last, share) => last * share);
    expect(pads.length).toBeGreaterThan(3 * ROUNDS);
    expect(pads.filter(({ offScale }) => offScale !== null).length / pads.length).toBeLessThanOrEqual(0.05);
  });
});
