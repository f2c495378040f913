import { describe, expect, it } from 'vitest';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { fitNeutrals } from '../../../src/core/colour/neutrals.ts';
import { stripBaseOf } from '../../../src/core/scale/strip-base.ts';
import { teachingOf } from '../../../src/core/scale/teach.ts';
import { CALIBRATION_PHONES } from '../../bench/accuracy/cases.ts';
import { everydayLight, ownerOf, phoneOf, takeShot } from '../../bench/accuracy/world.ts';
import { randomFrom } from '../../studio/random.ts';
import { PRACTICE_FOUR } from '../../studio/strips/strips.ts';

const ROUNDS = 12;

/** The plastic as seen in a teaching photo, and led there from a photo in another light. */
const rounds = Array.from({ length: ROUNDS }, (_, i) => {
  const random = randomFrom(5_400 + 17 * i);
  const owner = ownerOf(PRACTICE_FOUR, random.fork('owner'));
  const phone = phoneOf(CALIBRATION_PHONES, random.fork('phone'));
  const shot = (name: string) => takeShot(owner, phone, everydayLight(random.fork(name)), random.fork(`shot ${name}`));
  const [chart, strip] = [shot('chart'), shot('strip')];
  const teaching = teachingOf({ light: '', card: chart.card, blocks: [] }, fitNeutrals(chart.card).print);
  return {
    chart,
    teaching,
    there: stripBaseOf({ card: chart.card, base: chart.dryBase() }, teaching),
    led: stripBaseOf({ card: strip.card, base: strip.dryBase() }, teaching),
  };
});

/** Without those whose white plastic is overexposed. */
const seen = rounds.flatMap(({ there, led }) => (there && led ? [{ there, led }] : []));

const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe('the colour of a strip’s plastic', () => {
  it('is white', () => {
    expect(seen.length).toBeGreaterThan(ROUNDS / 2);
    for (const { there } of seen) {
      expect(there[0]).toBeGreaterThan(85);
      expect(Math.hypot(there[1], there[2])).toBeLessThan(8);
    }
  });

  // What a reading allows for (shared-errors.ts): one standard deviation of 1.5 CIEDE2000.
  it('comes out alike whatever light the strip lay in', () => {
    expect(mean(seen.map(({ there, led }) => ciede2000(led, there)))).toBeLessThan(1.5);
  });

  it('is left out where something else than white plastic was sampled', () => {
    const { chart, teaching } = rounds[0]!;
    const dark = chart.dryBase().map((sample) => ({ ...sample, rgb: [0.2, 0.25, 0.2] as const }));
    expect(stripBaseOf({ card: chart.card, base: dark }, teaching)).toBeNull();
    expect(stripBaseOf({ card: chart.card, base: [] }, teaching)).toBeNull();
  });
});
