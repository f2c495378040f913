/** Prints and lights are simulated; so are the patterns, but over other lights, phones and owners. */
import { describe, expect, it } from 'vitest';
import { cardPairs } from '../../../src/core/colour/anchors.ts';
import { fitNeutrals } from '../../../src/core/colour/neutrals.ts';
import { ANOTHER_PRINT, unlikeSamePrint } from '../../../src/core/colour/same-print.ts';
import type { CardSamples, PatchSample } from '../../../src/core/samples.ts';
import { teachingOf } from '../../../src/core/scale/teach.ts';
import { REPORT_PHONES } from '../../bench/accuracy/cases.ts';
import { everydayLight, ownerOf, phoneOf, takeShot } from '../../bench/accuracy/world.ts';
import { randomFrom } from '../../studio/random.ts';
import { PRACTICE_FOUR } from '../../studio/strips/strips.ts';

const ROUNDS = 30;

function unlikeness(taughtBy: CardSamples, read: CardSamples): number {
  const teaching = teachingOf({ light: '', card: taughtBy, blocks: [] }, fitNeutrals(taughtBy).print);
  const correction = fitNeutrals(read, teaching.print);
  const linear = ({ rgb, xMm, yMm }: PatchSample) => correction.toLinear(rgb, xMm, yMm);
  return unlikeSamePrint(cardPairs(read, teaching, linear).anchors);
}

function rounds() {
  return Array.from({ length: ROUNDS }, (_, i) => {
    const random = randomFrom(600_011 + 31 * i);
    const owner = ownerOf(PRACTICE_FOUR, random.fork('owner'));
    const other = ownerOf(PRACTICE_FOUR, random.fork('other'));
    const phone = phoneOf(REPORT_PHONES, random.fork('phone'));
    const shot = (who: typeof owner, name: string) =>
      takeShot(who, phone, everydayLight(random.fork(name)), random.fork(`shot ${name}`)).card;
    const taught = shot(owner, 'teaching');
    return {
      same: unlikeness(taught, shot(owner, 'reading')),
      another: unlikeness(taught, shot(other, 'reading')),
    };
  });
}

describe('the same print of the card and another', () => {
  const seen = rounds();

  it('tells another print in nine cases of ten, on phones that nothing was set on', () => {
    expect(seen.filter(({ another }) => another > ANOTHER_PRINT).length).toBeGreaterThanOrEqual(0.9 * ROUNDS);
  });

  it('takes the same print for another in less than one case of ten, in whatever light', () => {
    expect(seen.filter(({ same }) => same > ANOTHER_PRINT).length).toBeLessThan(0.1 * ROUNDS);
  });

  it('sees nothing where nothing has changed', () => {
    const pair = { from: [0.4, 0.3, 0.2], to: [0.4, 0.3, 0.2] } as const;
    expect(unlikeSamePrint([{ id: 'at1', ...pair }])).toBe(0);
    expect(unlikeSamePrint([])).toBe(0);
  });
});
