/** One need at a time, and the needs that pull against each other. */
import { describe, expect, it } from 'vitest';
import { kinds, plain, plan, reading, step } from './inputs.ts';

const planOf = (change: Parameters<typeof plain>[0]) => plan(plain(change));

describe('alkalinity and pH together', () => {
  it('low and low: bicarbonate with the soda ash counted in', () => {
    const made = planOf({ readings: { ph: reading(6.9, 0.05), 'total-alkalinity': reading(35, 5) } });
    expect(kinds(made)).toEqual(['raise-alkalinity', 'raise-ph']);
    expect(made.end.water.ph).toBeGreaterThan(7.2);
    expect(made.end.water.totalAlkalinity).toBeGreaterThan(60);
  });

  it('low alkalinity, high pH: bicarbonate before the acid, and more of it for what the acid takes', () => {
    const made = planOf({ readings: { ph: reading(8.1, 0.05), 'total-alkalinity': reading(40, 5) } });
    expect(kinds(made)).toEqual(['raise-alkalinity', 'lower-ph']);
    expect(step(made, 'raise-alkalinity').why.map(({ line }) => line)).toContain('for-the-acid-to-come');
    expect(made.end.water.totalAlkalinity).toBeCloseTo(75, 0);
    expect(made.end.water.ph).toBeLessThan(7.6);
  });

  it('high alkalinity, low pH: air alone, which leaves the alkalinity where it is', () => {
    const made = planOf({ readings: { ph: reading(7, 0.05), 'total-alkalinity': reading(150, 5) } });
    expect(kinds(made)).toEqual(['aerate']);
    expect(made.end.water.totalAlkalinity).toBeCloseTo(150, 6);
  });

  it('high and high: acid to the lower end of the pH, the alkalinity comes along', () => {
    const made = planOf({ readings: { ph: reading(8, 0.05), 'total-alkalinity': reading(140, 5) } });
    expect(kinds(made)).toEqual(['lower-ph']);
    expect(made.end.water.totalAlkalinity).toBeLessThan(140);
    expect(made.end.spans.ph.low).toBeGreaterThan(7.19);
  });

  it('alkalinity beyond its limit: rounds of acid and air, then a new test', () => {
    const made = planOf({ readings: { 'total-alkalinity': reading(220, 10) } });
    expect(kinds(made)).toEqual(['lower-ph', 'aerate', 'lower-ph', 'aerate']);
    expect(made.endChecks.find(({ target }) => target === 'total-alkalinity')!.why).toBe('goes-on-after-retest');
    for (const { after } of made.steps) expect(after.spans.ph.low).toBeGreaterThanOrEqual(7 - 1e-6);
  });

  it('low pH alone: soda ash where the alkalinity has room, borax or air where not', () => {
    expect(kinds(planOf({ readings: { ph: reading(7, 0.05) } }))).toEqual(['raise-ph']);
    const tight = { ph: reading(7, 0.05), 'total-alkalinity': reading(87, 2) };
    expect(kinds(planOf({ readings: tight }))).toEqual(['aerate']);
    const made = planOf({ readings: tight, shelf: [{ product: 'borax' }] });
    expect(step(made, 'raise-ph').choice!.product).toBe('borax');
    expect(made.end.water.boron).toBeGreaterThan(0);
  });

  it('high pH alone that would pull the alkalinity too low: bicarbonate makes up for it', () => {
    const made = planOf({ readings: { ph: reading(8.3, 0.05), 'total-alkalinity': reading(62, 1) } });
    expect(kinds(made)).toEqual(['raise-alkalinity', 'lower-ph']);
    expect(made.end.water.totalAlkalinity).toBeGreaterThan(60);
  });

  it('splits what is large', () => {
    expect(step(planOf({ readings: { ph: reading(8.5, 0.02) } }), 'lower-ph').parts).toBeGreaterThan(1);
    const hungry = planOf({ readings: { 'calcium-hardness': reading(20, 5) }, pool: { surface: 'plaster' } });
    expect(step(hungry, 'raise-hardness').parts).toBe(3);
    expect(step(hungry, 'raise-hardness').hoursBetweenParts).toBeGreaterThanOrEqual(4);
  });
});

describe('the saturation index', () => {
  it('lowers the pH that is itself in range where the water would scale', () => {
    const made = planOf({
      pool: { surface: 'plaster', heater: 'copper' },
      readings: { ph: reading(7.7, 0.05), 'calcium-hardness': reading(700, 20), 'total-alkalinity': reading(95, 3) },
    });
    expect(kinds(made)).toEqual(['lower-ph', 'look-for-scale']);
    expect(step(made, 'lower-ph').notes).toContain('ph-for-the-index');
    expect(made.now.saturationIndex.low).toBeGreaterThan(0.3);
    expect(made.end.saturationIndex.low).toBeLessThan(0.3);
  });
});

describe('what leaves only with the water', () => {
  it('is replaced before anything is dosed, and nothing else is dosed while the fill water is unknown', () => {
    const made = planOf({ readings: { 'cyanuric-acid': reading(140, 10), 'calcium-hardness': reading(90, 5) } });
    expect(kinds(made)[0]).toBe('replace-water');
    expect(made.holds.map(({ reason }) => reason)).toContain('after-dilution');
    expect(kinds(made)).not.toContain('raise-hardness');
    expect(made.assumptions.map(({ code }) => code)).toContain('fill-water');
  });

  it('is left alone between its target and its limit', () => {
    const made = planOf({
      readings: { 'cyanuric-acid': reading(75, 5), 'free-chlorine': reading(5, 0.2) },
      without: ['total-chlorine'],
    });
    expect(made.steps).toEqual([]);
    expect(made.nothingNeeded).toBe('out-but-not-to-be-dosed');
    expect(made.endChecks.find(({ target }) => target === 'cyanuric-acid')!.why).toBe('leaves-only-with-water');
  });

  it('stays where the fill water is no better', () => {
    const made = planOf({
      readings: { 'calcium-hardness': reading(1200, 30), ph: reading(7.3, 0.05) },
      fill: { 'calcium-hardness': 600, ph: 7.5, 'total-alkalinity': 100, salt: 50, 'cyanuric-acid': 0 },
    });
    expect(kinds(made)).not.toContain('replace-water');
  });
});

describe('chlorine', () => {
  const low = { 'free-chlorine': reading(1, 0.2) };
  const without: 'total-chlorine'[] = ['total-chlorine'];

  it('comes from the bottle, else from a chlorinator that can do it within a day, else has to be got', () => {
    const chlorinator = { chlorination: 'chlorinator', cell: { gramsPerHour: 15 } };
    const salty = { ...low, salt: reading(3100, 100) };
    expect(kinds(planOf({ readings: low, without }))).toEqual(['raise-chlorine']);
    const run = planOf({ pool: chlorinator, readings: salty, without, shelf: [] });
    // 40 m3 x (4 - 1.2) mg/L / 15 g/h
    expect(step(run, 'run-chlorinator').hours).toBeCloseTo((40 * 2.8) / 15, 6);
    const unsalted = planOf({ pool: chlorinator, readings: { ...low, salt: reading(1500, 50) }, without, shelf: [] });
    expect(step(unsalted, 'raise-chlorine').choice).toMatchObject({ product: 'sodium-hypochlorite', onShelf: false });
    expect(kinds(unsalted)).toContain('raise-salt');
  });

  it('takes no product whose companion would do harm', () => {
    const lime = [{ product: 'calcium-hypochlorite' as const }];
    expect(step(planOf({ readings: low, without, shelf: lime }), 'raise-chlorine').choice!.product).toBe(
      'calcium-hypochlorite',
    );
    const hard = { ...low, 'calcium-hardness': reading(420, 10) };
    expect(step(planOf({ readings: hard, without, shelf: lime }), 'raise-chlorine').choice!.product).toBe(
      'sodium-hypochlorite',
    );
    const dichlor = [{ product: 'dichlor' as const }];
    const enough = { ...low, 'cyanuric-acid': reading(48, 1) };
    expect(step(planOf({ readings: enough, without, shelf: dichlor }), 'raise-chlorine').choice!.product).toBe(
      'sodium-hypochlorite',
    );
    const little = { ...low, 'cyanuric-acid': reading(32, 1) };
    expect(step(planOf({ readings: little, without, shelf: dichlor }), 'raise-chlorine').choice!.product).toBe(
      'dichlor',
    );
    const tablets = planOf({ readings: low, without, shelf: [{ product: 'trichlor' }] });
    expect(step(tablets, 'raise-chlorine').choice!.product).not.toBe('trichlor');
  });

  it('breaks combined chlorine at ten times its low end, only if both chlorines are known', () => {
    const made = planOf({ readings: { 'free-chlorine': reading(2.5, 0.1), 'total-chlorine': reading(3.5, 0.1) } });
    const aim = step(made, 'oxidise-combined').why.find(({ line }) => line === 'aim');
    expect(aim).toMatchObject({ value: expect.closeTo(8, 6) as number });
    expect(step(made, 'oxidise-combined').notes).toContain('oxidise-common-practice');
    expect(kinds(planOf({ readings: { 'free-chlorine': reading(2.5, 0.1) }, without }))).toEqual([]);
  });

  it('above the limit: waits, or takes it out with thiosulfate by the least the reaction needs', () => {
    const much = { 'free-chlorine': reading(15, 1) };
    const wait = planOf({ readings: much, without });
    expect(kinds(wait)).toEqual(['wait-for-chlorine']);
    expect(wait.holds).toContainEqual({
      target: 'ph',
      reason: 'strip-unreliable-at-high-chlorine',
      remedy: 'wait-for-chlorine',
    });
    const taken = planOf({ readings: much, without, shelf: [{ product: 'sodium-thiosulfate' }] });
    // From 14 to 6 mg/L at D082, 0.87508 g per m3 and mg/L.
    expect(step(taken, 'lower-chlorine').amount!.exact).toBeCloseTo(8 * 0.87508 * 40, 0);
    expect(taken.end.spans.freeChlorine.low).toBeGreaterThanOrEqual(6 - 1e-6);
  });

  it('daily: trichlor says what stabilizer it brings (D075), and gives way where there is enough', () => {
    const daily = planOf({ pool: { chlorination: 'trichlor' }, readings: { 'total-alkalinity': reading(100, 5) } });
    expect(daily.upkeep).toMatchObject({ stabilizerPerWeek: expect.closeTo(7 * 2.5 * 0.60684, 3) as number });
    const enough = planOf({
      pool: { chlorination: 'trichlor' },
      readings: { 'total-alkalinity': reading(100, 5), 'cyanuric-acid': reading(70, 5) },
    });
    expect(enough.upkeep).toMatchObject({ instead: 'of-stabilised', stabilizerPerWeek: 0 });
  });
});

describe('a doubt is not dosed for', () => {
  it.each([
    ['ph', { ph: reading(7.8, 0.2) }],
    ['total-alkalinity', { 'total-alkalinity': reading(60, 10) }],
    ['free-chlorine', { 'free-chlorine': reading(2.1, 0.4) }],
    ['calcium-hardness', { 'calcium-hardness': reading(150, 20) }],
    ['cyanuric-acid', { 'cyanuric-acid': reading(30, 5) }],
  ] as const)('%s that may need nothing', (target, readings) => {
    const made = planOf({ readings, without: ['total-chlorine'] });
    expect(made.steps).toEqual([]);
    expect(made.nothingNeeded).toBe('only-holds');
    expect(made.holds).toEqual([expect.objectContaining({ target, reason: 'straddles' })]);
    expect(made.retests[0]).toMatchObject({ reading: target, afterHours: 0, reason: 'held' });
  });

  it('off the scale: only the near side is dosed for', () => {
    const high = planOf({ readings: { ph: { value: 8.4, offScale: 'above' } } });
    expect(step(high, 'lower-ph').why[0]).toMatchObject({ line: 'reading', used: 8.4 });
    expect(high.end.spans.ph.low).toBeGreaterThanOrEqual(7.4 - 0.01);
    const low = planOf({ readings: { 'total-alkalinity': { value: 40, offScale: 'below' } } });
    expect(step(low, 'raise-alkalinity').why[0]).toMatchObject({ used: 40 });
    const stabilizer = planOf({ readings: { 'cyanuric-acid': { value: 100, offScale: 'above' } } });
    // At least 100: 60 % out for 40, as if it were no more.
    expect(step(stabilizer, 'replace-water').after.water.cyanuricAcid).toBeCloseTo(40, 6);
  });

  it('asks for a better test where the test was coarse, for the same one where it was fine', () => {
    const remedy = (by: number) => planOf({ readings: { ph: reading(7.8, by) } }).holds[0]!.remedy;
    expect(remedy(0.3)).toBe('better-test');
    expect(remedy(0.1)).toBe('repeat-test');
  });

  it('doses for the near end and says the range', () => {
    const { amount } = step(planOf({ readings: { 'total-alkalinity': reading(45, 10) } }), 'raise-alkalinity');
    // 55 to 80 of D016 for now, 35 to 80 if the other end is true: 40 m3.
    expect(amount!.exact).toBeCloseTo(2.5 * 16.787 * 40, 0);
    expect(amount!.upTo).toBeCloseTo(4.5 * 16.787 * 40, 0);
  });

  it('uses the smallest volume the pool may have', () => {
    const sure = planOf({ readings: { 'total-alkalinity': reading(40, 5) } });
    const unsure = planOf({
      pool: { volumeLowLitres: 30_000, volumeHighLitres: 50_000 },
      readings: { 'total-alkalinity': reading(40, 5) },
    });
    expect(step(unsure, 'raise-alkalinity').amount!.exact).toBeCloseTo(
      step(sure, 'raise-alkalinity').amount!.exact * 0.75,
      6,
    );
  });
});

describe('assumptions', () => {
  it('stand in for what is blank, with their effect on the answer', () => {
    const made = planOf({ without: ['cyanuric-acid', 'temperature'] });
    const assumed = made.assumptions.find(({ code }) => code === 'cyanuric-acid')!;
    expect(assumed.span).toEqual({ value: 40, low: 0, high: 100 });
    // Without stabilizer far more of the chlorine is active (chlorine-cyanurate.csv: 56 % at pH 7.5, 25 °C).
    expect(assumed.effect!.activeChlorine[0] / 4).toBeGreaterThan(0.5);
    expect(assumed.effect!.activeChlorine[1] / 4).toBeLessThan(0.02);
    const temperature = made.assumptions.find(({ code }) => code === 'temperature')!;
    expect(temperature.effect!.saturationIndex[1]).toBeGreaterThan(temperature.effect!.saturationIndex[0]);
  });

  it('take total hardness for mostly calcium', () => {
    const made = planOf({ readings: { 'total-hardness': reading(300, 20) }, without: ['calcium-hardness'] });
    expect(made.now.water.calciumHardness).toBeCloseTo(240, 9);
    expect(made.now.spans.calciumHardness).toMatchObject({ low: 168, high: 320 });
    expect(made.generalCautions).toContain('strip-total-hardness');
  });

  it('give a typed value the doubt of a test that nobody named, and say so', () => {
    const made = planOf({ readings: { ph: { value: 7.5 } } });
    expect(made.now.spans.ph).toEqual({ value: 7.5, low: 7.2, high: 7.8 });
    expect(made.assumptions.find(({ code }) => code === 'test-error')!.readings).toEqual(['ph']);
  });
});
