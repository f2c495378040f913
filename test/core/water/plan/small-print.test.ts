/** What an expert would look for in any plan: limits, strengths, and what is left out; each with its source or common practice. */
import { describe, expect, it } from 'vitest';
import { doText, endLine, rangeText, waitText } from '../../../../src/words/plan/parts.ts';
import { verdictText } from '../../../../src/words/plan/sentences.ts';
import { hypochloriteLeft } from '../../../../src/core/water/hypochlorite-age.ts';
import { caution } from '../../../../src/words/plan/cautions.ts';
import { kinds, plain, plan, reading, step } from './inputs.ts';

const planOf = (change: Parameters<typeof plain>[0]) => plan(plain(change));
const without: 'total-chlorine'[] = ['total-chlorine'];
const salted = { chlorination: 'chlorinator', cell: { gramsPerHour: 15 } };
const fill = { ph: 7.6, 'total-alkalinity': 90, 'calcium-hardness': 150, salt: 50, 'cyanuric-acid': 0 };

describe('what the plan leaves out', () => {
  it('waits for no stabilizer that isn’t dosed', () => {
    const made = planOf({
      readings: { ph: reading(7.22, 0.01), 'calcium-hardness': reading(20, 5), 'total-alkalinity': reading(62, 1) },
      pool: { surface: 'plaster' },
    });
    for (const one of made.steps) expect(waitText(one)).not.toContain('stabilizer');
  });

  it('calls nothing in its target that was not measured', () => {
    const made = planOf({
      readings: { 'free-chlorine': reading(1, 0.1) },
      without: ['total-chlorine', 'cyanuric-acid', 'salt'],
    });
    for (const id of ['cyanuric-acid', 'salt'] as const) {
      const check = made.endChecks.find(({ target }) => target === id)!;
      expect(check).toMatchObject({ inside: false, why: 'not-measured' });
      expect(endLine(check, 'metric')).toContain('not known');
    }
  });

  it('takes no step that no test would notice', () => {
    // Low for certain, but its high end is all but at the aim.
    const made = planOf({
      pool: { volumeLitres: 30_000 },
      readings: { 'total-alkalinity': reading(59.9, 0.05) },
      targets: { 'total-alkalinity': { low: 60, aim: 60.5, high: 100 } },
    });
    expect(made.steps).toEqual([]);
    expect(made.holds).toContainEqual(
      expect.objectContaining({ target: 'total-alkalinity', reason: 'too-little-to-tell' }),
    );
  });
});

describe('limits for swimming', () => {
  it('close above pH 8.0: CDC Model Aquatic Health Code 6.6.3.1', () => {
    const of = (value: number, by: number) => planOf({ readings: { ph: reading(value, by) } }).verdict;
    expect(of(8.1, 0.05)).toMatchObject({ swim: 'stay-out' });
    expect(of(8.0, 0.1)).toMatchObject({ swim: 'correct-first' });
    expect(verdictText('ph-too-high')).toContain('8.0');
  });
});

describe('water that is let out', () => {
  const made = planOf({ readings: { 'cyanuric-acid': reading(150, 10) }, fill, pool: salted });

  it('goes by a third at most at a time (common practice, no source), pump off, and where local rules allow', () => {
    const { replace, notes, cautions } = step(made, 'replace-water');
    expect(replace!.sharePerTime).toBeLessThanOrEqual(1 / 3 + 1e-9);
    expect(notes).toContain('pump-off-below-the-skimmer');
    expect(cautions).toEqual(
      expect.arrayContaining(['never-empty', 'liner-moves', 'discharge-permission', 'discharge-downhill']),
    );
  });
});

describe('the strength of liquid chlorine', () => {
  const dose = (item: object) =>
    step(
      planOf({
        readings: { 'free-chlorine': reading(1, 0.1) },
        without,
        shelf: [{ product: 'sodium-hypochlorite', strength: 12.5, ...item }],
      }),
      'raise-chlorine',
    );

  it('by weight, as US labels say (40 CFR 156.10(g)), is about 140 g/L at 12.5 %, by volume 125', () => {
    const [weight, volume] = [dose({ basis: 'by-weight' }).amount!.exact, dose({ basis: 'by-volume' }).amount!.exact];
    // 125 g/kg x 1.18 kg/L x 70.90/74.44: 140.5.
    expect(Math.abs((125 * volume) / weight - 140)).toBeLessThan(1);
    expect(dose({}).amount!.exact).toBe(volume);
  });

  it('falls with age, faster where it is strong and warm', () => {
    // Half as strong, about a quarter as fast (The Chlorine Institute, on diluting sodium hypochlorite): the rate is
    // that of the share lost, times the strength.
    const rate = (grams: number, temperatureC = 25) => grams * (1 - hypochloriteLeft(grams, 0.01, temperatureC));
    expect(rate(62.5) / rate(125)).toBeGreaterThan(0.1);
    expect(rate(62.5) / rate(125)).toBeLessThan(0.25);
    // US National Library of Medicine, stability of sodium hypochlorite: after 2 years at 24 °C less than half is left.
    expect(hypochloriteLeft(100, 24, 24)).toBeLessThan(0.5);
    expect(hypochloriteLeft(100, 1, 35)).toBeLessThan(hypochloriteLeft(100, 1, 15));
    const old = dose({ ageMonths: 3 });
    expect(old.amount!.exact).toBeGreaterThan(dose({}).amount!.exact * 1.1);
    expect(old.why).toContainEqual(expect.objectContaining({ line: 'strength', left: old.choice!.left }));
  });
});

describe('a product whose strength was learnt', () => {
  it('is dosed by that: at 0.8 of its label it takes a quarter more', () => {
    const dose = (item: object) =>
      step(
        planOf({
          readings: { ph: reading(8.1, 0.05) },
          shelf: [{ product: 'hydrochloric-acid', strength: 31.45, ...item }],
        }),
        'lower-ph',
      );
    const weak = dose({ learntShare: 0.8 });
    expect(weak.amount!.exact / dose({}).amount!.exact).toBeCloseTo(1.25, 6);
    expect(weak.why).toContainEqual(expect.objectContaining({ line: 'strength', left: 0.8, isLearnt: true }));
  });
});

describe('a bucket', () => {
  it('takes no more than its water bears, and there is never more than one at once (common practice, no source)', () => {
    const made = planOf({ readings: { 'calcium-hardness': reading(100, 5) }, pool: { surface: 'plaster' } });
    const { amount, parts } = step(made, 'raise-hardness');
    const { gramsEach, count } = amount!.buckets!;
    expect(gramsEach).toBeLessThanOrEqual(500);
    expect(gramsEach * count * parts).toBeCloseTo(amount!.exact, 6);
    expect(doText(step(made, 'raise-hardness'), 'metric')).toMatch(
      /no more than \d+ g into a bucket with 10 L of water/,
    );
    // Dissolving 1 kg of the anhydrous salt in 10 L warms it by 17 °C: 81.3 kJ/mol, CRC Handbook, from memory.
    expect(((500 / 110.98) * 81.3) / (10 * 4.18)).toBeLessThan(10);
  });

  it('has one rule for calcium hypochlorite: its label’s', () => {
    const made = planOf({
      readings: { 'free-chlorine': reading(1, 0.1) },
      without,
      shelf: [{ product: 'calcium-hypochlorite' }],
    });
    const { how, amount, cautions } = step(made, 'raise-chlorine');
    expect({ how, buckets: amount!.buckets }).toEqual({ how: 'as-the-label-says', buckets: null });
    expect(cautions.map((code) => caution(code).text).join()).not.toContain('Dissolve it beforehand');
  });
});

describe('smaller things', () => {
  it('combined chlorine of 0.7 keeps nobody out, and the cell does it', () => {
    const made = planOf({
      pool: salted,
      readings: {
        'free-chlorine': reading(3, 0.05),
        'total-chlorine': reading(3.7, 0.05),
        salt: reading(3200, 100),
      },
    });
    expect(made.verdict).toMatchObject({ swim: 'with-care', reasons: ['combined-above-target'] });
    expect(kinds(made)).toEqual(['run-chlorinator']);
  });

  it('a hardness of 50 with a liner is optional', () => {
    const notes = (surface: string) =>
      step(planOf({ pool: { surface }, readings: { 'calcium-hardness': reading(50, 5) } }), 'raise-hardness').notes;
    expect(notes('vinyl')).toContain('optional-without-plaster');
    expect(notes('plaster')).not.toContain('optional-without-plaster');
  });

  it('a hardness of 900 asks for a look at the cell, and offers softer water', () => {
    const made = planOf({
      pool: salted,
      readings: { 'calcium-hardness': reading(900, 20), ph: reading(7.4, 0.05) },
      without,
      fill,
    });
    const look = step(made, 'look-for-scale');
    expect(look.notes).toEqual(['look-at-the-cell', 'look-at-the-waterline', 'dilution-offered']);
    expect(look.cautions).toContain('isolate-cell');
    // (900 - 400) / (900 - 150): two thirds of the water.
    expect(look.offer!.share).toBeCloseTo(2 / 3, 2);
    expect(made.generalCautions).toContain('hard-water');
    expect(caution('hard-water').text).toMatch(/chlorinator.*replace part of the water/);
  });

  it('the label leads every list of cautions', () => {
    expect(planOf({}).generalCautions[0]).toBe('label');
  });

  it('pH 6.9 with copper in the heater doesn’t wait for air', () => {
    const acid = { ph: reading(6.9, 0.05), 'total-alkalinity': reading(130, 5) };
    expect(kinds(planOf({ readings: acid }))).toEqual(['aerate']);
    const copper = planOf({ readings: acid, pool: { heater: 'copper' } });
    expect(kinds(copper)).toEqual(['raise-ph']);
    expect(copper.end.spans.ph.high).toBeLessThanOrEqual(7.3);
  });

  it('dry acid warns of its sulfate', () => {
    const made = planOf({ readings: { ph: reading(8.1, 0.05) }, shelf: [{ product: 'sodium-bisulfate' }] });
    expect(step(made, 'lower-ph').cautions).toContain('sulfate-attacks');
  });

  it('thiosulfate’s room comes from its reaction; other amounts that might be are rough', () => {
    const taken = planOf({
      readings: { 'free-chlorine': reading(15, 1) },
      without,
      shelf: [{ product: 'sodium-thiosulfate' }],
    });
    expect(rangeText(step(taken, 'lower-chlorine'), 'metric')).toContain('the reaction stops early');
    const wide = step(planOf({ readings: { 'total-alkalinity': reading(40, 15) } }), 'raise-alkalinity');
    expect(rangeText(wide, 'metric')).toMatch(/might be about \d kg\.$/);
    expect(doText(wide, 'metric')).toContain('Add ');
  });
});
