import { activeChlorineInstrument, activeOf } from '../../../src/components/instruments/active-chlorine.ts';
import { afterDrops, alkalinityBuffer, MMOL_PER_DROP } from '../../../src/components/instruments/alkalinity-buffer.ts';
import { chlorinatorHoursInstrument, hoursOf } from '../../../src/components/instruments/chlorinator-hours.ts';
import { onControl, startSettings, type Instrument } from '../../../src/components/instruments/instrument.ts';
import { intervalAlongScale, placementOf } from '../../../src/components/instruments/interval-along-scale.ts';
import { lampAndPatch, look } from '../../../src/components/instruments/lamp-and-patch.ts';
import { LOADERS } from '../../../src/components/instruments/loaders.ts';
import { indexOf, saturationMap } from '../../../src/components/instruments/saturation-map.ts';
import { saltAfter, saltSeason, startOf } from '../../../src/components/instruments/salt-season.ts';
import {
  FROM_PHOTO,
  knownAfter,
  SHARED,
  stripsAddUp,
  TRUTH,
} from '../../../src/components/instruments/strips-add-up.ts';
import { examplePoolLitres } from '../../../src/components/drawings/example.ts';
import { toMarkup } from '../../../src/components/svg.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTable } from '../../reference/read-table.ts';
import { randomFrom } from '../../core/log/random.ts';

const ALL: Readonly<Record<string, Instrument>> = {
  'active-chlorine': activeChlorineInstrument,
  'alkalinity-buffer': alkalinityBuffer,
  'chlorinator-hours': chlorinatorHoursInstrument,
  'interval-along-scale': intervalAlongScale,
  'lamp-and-patch': lampAndPatch,
  'salt-season': saltSeason,
  'saturation-map': saturationMap,
  'strips-add-up': stripsAddUp,
};
const one = (file: string, id: string) => readTable(file).find((row) => row['id'] === id)!;

describe('the numbers of the instruments, against published figures', () => {
  it('active chlorine: the speciation table after O’Brien, Morris & Butler 1974, within 1 %', () => {
    const rows = readTable('chlorine-cyanurate.csv').filter(
      (row) => row['model'] === 'OBrien1974_25C' && Number(row['free_chlorine_mgL_Cl2']) === 3,
    );
    expect(rows.length).toBeGreaterThan(20);
    for (const row of rows) {
      const { by1974 } = activeOf({
        ph: Number(row['pH']),
        chlorine: 3,
        stabilizer: Number(row['cya_mgL']),
        celsius: Number(row['temp_C']),
      });
      expect(by1974 / Number(row['HOCl_mgL_Cl2'])).toBeCloseTo(1, 2);
    }
  });

  it('saturation map: PHREEQC 3.8.8 within 0.05', () => {
    const rows = readTable('phreeqc-saturation.csv').filter((row) => Number(row['boron_mgL']) === 0);
    expect(rows.length).toBeGreaterThan(60);
    for (const row of rows) {
      const index = indexOf({
        ph: Number(row['pH']),
        alkalinity: Number(row['total_alkalinity_mgL_CaCO3']),
        hardness: Number(row['calcium_hardness_mgL_CaCO3']),
        celsius: Number(row['temp_C']),
        salt: Number(row['nacl_mgL']),
        stabilizer: Number(row['cya_mgL']),
      });
      expect(Math.abs(index - Number(row['SI_phreeqc_3_8_8'])), row['id']).toBeLessThanOrEqual(0.05);
    }
  });

  it.each(['A058', 'A059', 'A060'])('acid by the drop: PHREEQC 3.8.8 case %s within 0.02 in pH', (id) => {
    const row = one('phreeqc-acid-demand.csv', id);
    const water = afterDrops(
      { ph: 7.8, alkalinity: 120, stabilizer: 0 },
      Number(row['dose_mmol_per_kgw']) / MMOL_PER_DROP,
    );
    expect(Math.abs(water!.ph - Number(row['pH_end']))).toBeLessThanOrEqual(0.02);
  });

  it('a drop of 31.45 % acid: 10.007 mol/L (dose fact D023), twenty drops to the millilitre', () => {
    expect(MMOL_PER_DROP / ((Number(one('dose-facts.csv', 'D023')['value']) * 0.05) / 10)).toBeCloseTo(1, 2);
  });

  it('chlorinator hours: dose fact D100', () => {
    expect(hoursOf({ volume: 50, use: 2, output: 20, setting: 100 }).hours).toBeCloseTo(
      Number(one('dose-facts.csv', 'D100')['value']),
      6,
    );
  });

  it('salt added: a gram to the litre makes 1000 mg/L (dose fact D040)', () => {
    const perCubicMetre = Number(one('dose-facts.csv', 'D040')['value']);
    const added = (perCubicMetre * examplePoolLitres()) / 1e6;
    expect(startOf({ salt: 500, added })).toBeCloseTo(1500, 6);
  });
});

describe('what must always hold', () => {
  it('strips that add up: the doubt of a mean that shares an error, as drawn numbers have it', () => {
    const { normal } = randomFrom(77);
    const draws = Array.from({ length: 20_000 }, () => {
      const shared = SHARED * normal();
      return Array.from({ length: 4 }, () => TRUTH + shared + FROM_PHOTO * normal()).reduce((a, b) => a + b) / 4;
    });
    const mean = draws.reduce((a, b) => a + b) / draws.length;
    const spread = Math.sqrt(draws.reduce((sum, one) => sum + (one - mean) ** 2, 0) / draws.length);
    expect(knownAfter({ strips: 4, bias: 0, drops: 0 }).deviation / spread).toBeCloseTo(1, 1);
  });

  it('strips that add up: more of them narrow the band, only a drop test finds the bias', () => {
    const at = (strips: number, drops: number) => knownAfter({ strips, bias: 15, drops });
    expect(at(12, 0).deviation).toBeLessThan(at(2, 0).deviation);
    expect(at(12, 0).deviation).toBeGreaterThan(SHARED);
    expect(Math.abs(at(12, 0).mean - TRUTH)).toBeGreaterThan(12);
    expect(Math.abs(at(12, 1).mean - TRUTH)).toBeLessThan(6);
    expect(at(12, 1).deviation).toBeLessThan(0.6 * at(12, 0).deviation);
  });

  it('salt never grows by itself, and stays where nothing leaves but vapour', () => {
    const settings = { salt: 3200, added: 0, rain: 0, backwash: 0, weeks: 20 };
    const dry = saltAfter(settings, 20);
    expect(dry).toBeLessThan(3200);
    expect(saltAfter({ ...settings, backwash: 800 }, 20)).toBeLessThan(dry);
    expect(saltAfter({ ...settings, rain: 80 }, 20)).toBeLessThan(dry);
  });

  it('the interval holds the colour’s own place and grows with the doubt', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100 }), fc.double({ min: 0.2, max: 3, noNaN: true }), (place, doubt) => {
        const { best } = placementOf({ place, doubt });
        const wider = placementOf({ place, doubt: doubt + 1 }).best;
        expect(best.low).toBeLessThanOrEqual(best.value);
        expect(best.high).toBeGreaterThanOrEqual(best.value);
        expect(wider.high - wider.low).toBeGreaterThanOrEqual(best.high - best.low - 1e-9);
      }),
      { seed: 6, numRuns: 30 },
    );
  });

  it('the greys bring the pad to within 2 CIEDE2000 of the truth wherever the lamp stands, and nearer than the photo', () => {
    for (const kelvin of [2500, 4000, 9000]) {
      for (const [x, y] of [
        [-40, -40],
        [74, 52],
        [165, 125],
      ] as const) {
        const { raw, corrected } = look({ kelvin, xMm: x, yMm: y });
        expect(corrected.off).toBeLessThan(2);
        expect(corrected.off).toBeLessThan(raw.off);
      }
    }
  });
});

describe.each(Object.entries(ALL))('%s', (name, instrument) => {
  it('is the one the page loads under its name', async () => {
    expect(await LOADERS[name]!()).toBe(instrument);
  });

  it('says in words what it draws, at every end of its controls', () => {
    const start = startSettings(instrument.controls);
    for (const control of instrument.controls) {
      for (const value of [control.min, control.max]) {
        const { picture, answer } = instrument.show({ ...start, [control.name]: value });
        expect(answer).toMatch(/\d|wrong/);
        expect(answer).not.toMatch(/NaN|Infinity|undefined/);
        expect(toMarkup(picture)).not.toMatch(/NaN|Infinity|undefined/);
        expect(picture.attributes['aria-label']).toBe(answer);
      }
    }
  });

  it('keeps what a finger sets on its controls', () => {
    const { drag } = instrument;
    if (!drag) return;
    const start = startSettings(instrument.controls);
    for (const at of [-0.2, 0, 0.5, 1, 1.2]) {
      for (const [key, value] of Object.entries(drag.to(at, at, start))) {
        const control = instrument.controls.find((each) => each.name === key)!;
        const held = onControl(value, control);
        expect(held).toBeGreaterThanOrEqual(control.min);
        expect(held).toBeLessThanOrEqual(control.max);
      }
    }
  });
});

it('tests every instrument there is', () => {
  expect(Object.keys(ALL).sort()).toEqual(Object.keys(LOADERS).sort());
});
