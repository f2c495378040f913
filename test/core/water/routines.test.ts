/** Routines are made for the pool: order, what is left out, and figures against arithmetic written out here. */
import { describe, expect, it } from 'vitest';
import { routineFor, type RoutineId, routinesOf } from '../../../src/core/water/routines/routine.ts';
import { caution } from '../../../src/words/plan/cautions.ts';
import { itemText, routineTitle } from '../../../src/words/plan/routines.ts';
import { plain, plan, reading } from './plan/inputs.ts';

const SALT = {
  chlorination: 'chlorinator',
  cell: { gramsPerHour: 12 },
  volumeLitres: 26_100,
  surfaceM2: 23.8,
  pump: { litresPerHour: 6000, basis: 'measured', hoursPerDay: 8 },
  filter: { kind: 'sand', cleanBar: 0.6, nowBar: 0.8 },
};
const made = (pool: object = {}, rest: object = {}) =>
  plan(plain({ pool: { ...SALT, ...pool }, readings: { salt: reading(3200, 100) }, ...rest }));
const codes = (id: RoutineId, pool: object = {}) => routineFor(id, made(pool)).items.map(({ code }) => code);
const figures = (id: RoutineId, code: string, pool: object = {}, occasion?: Parameters<typeof routineFor>[2]) =>
  routineFor(id, made(pool), occasion).items.find((one) => one.code === code)!.figures;
const before = (list: readonly string[], first: string, then: string) =>
  list.indexOf(first) >= 0 && list.indexOf(first) < list.indexOf(then);

describe('every routine', () => {
  const pools = [
    {},
    { heater: 'copper', filter: { kind: 'cartridge' }, winter: 'mild' },
    { heater: 'collector', heat: { kilowatts: 6, targetC: 28 }, filter: undefined, surfaceM2: undefined },
    { heater: 'collector', heat: { collectorM2: 20, targetC: 28 } },
    { heater: 'collector', heat: { riseC: 7, targetC: 28 } },
    { heater: 'other', chlorination: 'trichlor', cell: undefined, pump: undefined, heat: { targetC: 20 } },
    { kind: 'spa', volumeLitres: 1500 },
    {
      chlorination: 'trichlor',
      heater: 'copper',
      cell: undefined,
      filter: { kind: 'sand', cleanBar: 0.6, nowBar: 0.3 },
    },
  ];

  it.each(pools)('is led by the label and has a sentence for each code, in both systems of units: %j', (pool) => {
    const one = made(pool);
    for (const id of routinesOf(one)) {
      const routine = routineFor(id, one);
      expect(routine.cautions[0]).toBe('label');
      for (const code of routine.cautions) expect(caution(code).text).not.toBe('');
      for (const units of ['metric', 'us'] as const) {
        for (const item of routine.items) expect(itemText(item, units)).not.toMatch(/undefined|NaN|Infinity/);
      }
      expect(routineTitle(id)).not.toBe('');
    }
  });

  it('is offered only where the pool has a use for it', () => {
    expect(routinesOf(made())).not.toContain('warming');
    expect(routinesOf(made({ heater: 'copper' }))).toContain('warming');
    expect(routinesOf(made({ chlorination: 'hypochlorite' }))).not.toContain('cell-care');
  });
});

describe('the filter', () => {
  it('is cleaned a quarter above its clean pressure (common practice, no source), pump off before the valve turns', () => {
    expect(figures('clean-filter', 'gauge-clean-it')).toMatchObject({ clean: 0.6, at: 0.75 });
    expect(codes('clean-filter', { filter: { kind: 'sand', cleanBar: 0.6, nowBar: 0.7 } })).toContain('gauge-wait');
    expect(codes('clean-filter', { filter: { kind: 'sand', cleanBar: 0.6, nowBar: 0.3 } })).toContain('gauge-starved');
    expect(before(codes('clean-filter'), 'pump-off', 'valve-backwash')).toBe(true);
    expect(before(codes('clean-filter', { filter: { kind: 'cartridge' } }), 'air-valve-open', 'rinse-cartridge')).toBe(
      true,
    );
  });

  it('costs water and salt: 6 m3/h for three and a half minutes at 3,200 mg/L', () => {
    const { litres, saltGrams } = figures('clean-filter', 'top-up');
    expect(litres).toBeCloseTo(350, 6);
    expect(saltGrams! / 350).toBeCloseTo(3.2, 1);
  });
});

describe('rain', () => {
  it('of 30 mm on 23.8 m2 is 714 litres, and thins salt by what runs over', () => {
    expect(figures('after-rain', 'lower-to-skimmer')['litres']).toBeCloseTo(714, 6);
    const { from, to } = figures('after-rain', 'rain-thins-salt');
    expect(to! / from!).toBeCloseTo(26_100 / 26_814, 6);
  });
});

describe('a party and a journey', () => {
  it('counts 4 g of chlorine a bather (common practice, no source)', () => {
    const usual = { rainMm: 0, bathers: 20, days: 14 };
    expect(figures('after-party', 'party-used', {}, usual)['fall']).toBeCloseTo(80_000 / 26_100, 6);
    expect(figures('after-party', 'cell-overnight', {}, usual)['hours']).toBeCloseTo(80 / 12, 6);
    expect(codes('after-party')[0]).toBe('everybody-out');
  });

  it('sets the cell, or says that somebody has to dose', () => {
    expect(codes('before-leaving')).toContain('cell-set');
    expect(codes('before-leaving', { chlorination: 'hypochlorite' })).toContain('somebody-doses');
    expect(codes('before-leaving', { chlorination: 'trichlor' })).toContain('tablets-in-feeder');
  });
});

describe('the cell', () => {
  it('is without power before it is opened, meets water before acid, and acid goes to water', () => {
    const list = codes('cell-care');
    expect(before(list, 'cell-power-off', 'cell-out')).toBe(true);
    expect(before(list, 'water-first', 'acid-last')).toBe(true);
    expect(routineFor('cell-care', made()).cautions).toEqual(
      expect.arrayContaining(['isolate-cell', 'into-water', 'acid-and-chlorine']),
    );
  });

  it('makes hydrogen, a mole for each of chlorine: 12 g/h are 0.169 mol, 4.1 L at 25 °C', () => {
    // 24.465 L/mol at 25 °C and 1 atm, CODATA; 70.906 g/mol.
    expect(figures('cell-care', 'hydrogen')['litresPerHour']).toBeCloseTo((12 / 70.906) * 24.465, 2);
  });
});

describe('warming', () => {
  const heat = { heater: 'other', heat: { kilowatts: 8, targetC: 28 } };

  it('from 26 to 28 °C takes some 60 kWh for 26.1 m3: 4.18 kJ/(kg K), CRC Handbook, from memory', () => {
    const { kWh, hours } = figures('warming', 'warm-needs', heat);
    expect(kWh! / ((26_100 * 2 * 4.18) / 3600)).toBeCloseTo(1, 1);
    expect(hours).toBeCloseTo(kWh! / 8, 6);
  });

  it('takes the power from flow and rise: 6 m3/h that come back 2 °C warmer are 14 kW (4.19 kJ/(kg K), CRC, from memory)', () => {
    const { kilowatts } = figures('warming', 'power-measured', { heater: 'other', heat: { riseC: 2 } });
    expect(kilowatts! / ((6000 * 2 * 4.19) / 3600)).toBeCloseTo(1, 1);
    // Of a rated flow seven tenths come through: common practice, no source.
    const rated = { heater: 'other', heat: { riseC: 2 }, pump: { litresPerHour: 6000 } };
    expect(figures('warming', 'power-measured', rated)['kilowatts']! / kilowatts!).toBeCloseTo(0.7, 9);
  });

  it('takes it from the sun on the collector until flow and rise are known (common practice, no source)', () => {
    const pool = { heater: 'collector', heat: { collectorM2: 20, targetC: 28 } };
    const { kilowatts } = figures('warming', 'power-by-sun', pool);
    expect(kilowatts).toBeCloseTo(20 * 0.8 * 0.7, 9);
    // Back from power to rise: kW = flow x 4.19 kJ/(kg K) x rise.
    const { rise } = figures('warming', 'rise-expected', pool);
    expect((rise! * 6000 * 4.19) / 3600 / kilowatts!).toBeCloseTo(1, 1);
    const day = figures('warming', 'collector-day', pool);
    expect(day['sunHours']).toBe(6);
    expect((day['rise']! * 26_100 * 4.19) / 3600 / (6 * kilowatts!)).toBeCloseTo(1, 1);
    const { days } = figures('warming', 'warm-days', pool);
    expect(days! * day['rise']!).toBeCloseTo(2, 6);
  });

  it('gives a difference of temperatures in US units without the scale’s 32 degrees: 2 °C are 3.6 °F', () => {
    const items = routineFor('warming', made({ heater: 'other', heat: { riseC: 2 } })).items;
    const measured = items.find(({ code }) => code === 'power-measured')!;
    expect(itemText(measured, 'us')).toContain('3.6 °F warmer');
    expect(itemText(measured, 'metric')).toContain('2 °C warmer');
  });

  it('counts no more sun than the pump’s timer runs, and says when a collector gets too little water', () => {
    const pool = { heater: 'collector', heat: { riseC: 7 }, pump: { litresPerHour: 2000, hoursPerDay: 4 } };
    expect(figures('warming', 'collector-hours', pool)).toEqual({ timer: 4, sunHours: 4 });
    expect(codes('warming', pool)).toContain('collector-slow');
    expect(codes('warming', { ...pool, heat: { riseC: 3 } })).not.toContain('collector-slow');
  });

  it('stops the heater before the pump, and minds its metal', () => {
    expect(codes('warming', heat)).toEqual(expect.arrayContaining(['metal-and-salt', 'heater-stops-first']));
    expect(codes('warming', { heater: 'copper' })).toContain('copper-ph');
    expect(codes('warming', { heater: 'collector' })).toContain('collector-drain');
  });
});

describe('green water, opening and closing', () => {
  it('go in their own order', () => {
    const green = codes('green-water');
    expect(before(green, 'loop-ph', 'loop-chlorine') && before(green, 'loop-chlorine', 'overnight-test')).toBe(true);
    expect(before(green, 'overnight-test', 'loop-over') && before(green, 'loop-over', 'give-up')).toBe(true);
    const open = codes('opening', { heater: 'copper' });
    expect(before(open, 'cover-off', 'pump-on-clear') && before(open, 'follow-plan', 'cell-last')).toBe(true);
    expect(before(open, 'cell-last', 'heater-last') && before(open, 'heater-last', 'swim-when')).toBe(true);
  });

  it('asks for other water first where stabilizer is very high', () => {
    const high = plan(plain({ pool: SALT, readings: { 'cyanuric-acid': reading(120, 10) } }));
    expect(routineFor('green-water', high).items.map(({ code }) => code)).toContain('dilute-first');
  });

  it('drains against frost only where pipes can freeze, and never names the pool empty', () => {
    expect(codes('closing')).toEqual(expect.arrayContaining(['frost-level', 'frost-drain', 'cover-winter']));
    expect(codes('closing', { winter: 'mild' })).not.toContain('frost-drain');
    expect(routineFor('closing', made()).cautions).toEqual(
      expect.arrayContaining(['never-empty', 'drown-cover', 'discharge-permission']),
    );
  });
});
