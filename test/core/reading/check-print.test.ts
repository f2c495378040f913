/** Prints good and poor, in three lights. All simulated, phones of the report set. */
import { describe, expect, it } from 'vitest';
import { checkPrint, noiseOf, printCheckFile, usualStep, type Finding } from '../../../src/core/reading/check-print.ts';
import { REPORT_PHONES } from '../../bench/accuracy/cases.ts';
import { everydayLight, type Owner, ownerOf, phoneOf, takeShot } from '../../bench/accuracy/world.ts';
import { randomFrom } from '../../studio/random.ts';
import { PRACTICE_FOUR } from '../../studio/strips/strips.ts';
import { phPad } from '../scale/fixtures.ts';

function cardsOf(seed: number, change: Partial<Owner> = {}) {
  const random = randomFrom(seed);
  const owner = { ...ownerOf(PRACTICE_FOUR, random.fork('owner')), ...change };
  const phone = phoneOf(REPORT_PHONES, random.fork('phone'));
  return [0, 1, 2].map(
    (i) => takeShot(owner, phone, everydayLight(random.fork(`light ${i}`)), random.fork(`shot ${i}`)).card,
  );
}
const verdict = (findings: readonly Finding[], what: Finding['what']) =>
  findings.find((one) => one.what === what)?.verdict;

describe('the check of a print', () => {
  it('finds ordinary prints good', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const { findings } = checkPrint(cardsOf(7000 + seed), 50.2);
      for (const { what, verdict: found } of findings) expect(found, `${seed} ${what}`).toBe('good');
      expect(findings.map(({ what }) => what)).toEqual(['rule', 'greys', 'evenness', 'gloss', 'patches']);
    }
  });

  it('doubts greys that the printer mixed from colours, a page that was scaled, and glints', () => {
    const cards = cardsOf(7001, { cast: { chroma: 6, hueDegrees: 40 } });
    expect(verdict(checkPrint(cards, null).findings, 'greys')).toBe('doubtful');
    expect(verdict(checkPrint(cards, 48.5).findings, 'rule')).toBe('bad');
    expect(verdict(checkPrint(cards, 49.4).findings, 'rule')).toBe('doubtful');
    const shiny = cards.map((card) => ({ ...card, neutrals: card.neutrals.map((one) => ({ ...one, rejected: 0.2 })) }));
    expect(verdict(checkPrint(shiny, null).findings, 'gloss')).toBe('doubtful');
  });

  it('misses an ink: patches have lost their colour', () => {
    const printer = { ...ownerOf(PRACTICE_FOUR, randomFrom(3)).printer, strength: [1, 0.05, 1] as const };
    expect(verdict(checkPrint(cardsOf(7002, { printer }), null).findings, 'patches')).not.toBe('good');
  });

  it('says how much the patches still differ, which the map makes less', () => {
    const { left } = checkPrint(cardsOf(7003), null);
    expect(left!.deltaE).toBeLessThan(left!.withoutMap);
    expect(left!.deltaE).toBeGreaterThan(0.1);
    expect(checkPrint(cardsOf(7003).slice(0, 1), null).left).toBeNull();
    expect(checkPrint(cardsOf(7003, { variant: 'black' }), null)).toMatchObject({ left: null });
  });

  it('makes later readings wider where the phone is less sure than most, and never narrower', () => {
    const noise = (deltaE: number) => noiseOf({ left: { deltaE, withoutMap: 9 } });
    expect([noise(0.5), noise(2), noiseOf({ left: null })]).toEqual([0, 0, 0]);
    // Half of the root of 9 less 4; two at most.
    expect(noise(3)).toBeCloseTo(Math.sqrt(5) / 2, 9);
    expect(noise(30)).toBe(2);
  });

  it('counts in the steps of a scale', () => {
    const [blocks, step] = [phPad().blocks, usualStep({ pads: [phPad()] })];
    expect(step).toBeGreaterThan(1);
    expect(usualStep({ pads: [{ ...phPad(), blocks: blocks.slice(0, 2) }] })).not.toBe(0);
  });
});

describe('the file that may be sent', () => {
  it('holds colours and findings, and no mark', () => {
    const cards = cardsOf(7004).map((card) => ({ ...card, version: 2, printMark: 0xa3f }));
    const file = printCheckFile(cards, checkPrint(cards, null));
    expect(Object.keys(file).sort()).toEqual(['findings', 'format', 'left', 'photos', 'version']);
    for (const photo of file.photos) {
      expect(Object.keys(photo)).toEqual(['cardVersion', 'variant', 'colours']);
      expect(Object.keys(photo.colours)).toHaveLength(16 + 18 + 6);
    }
    expect(JSON.stringify(file)).not.toContain('Mark');
  });
});
