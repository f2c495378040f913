import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkWater, LIMITS, type Reading } from '../../../src/core/water/check.ts';
import { waterOf } from '../../../src/core/water/water.ts';
import { runs } from './waters.ts';

const good = { ph: 7.5, totalAlkalinity: 80, calciumHardness: 250, temperatureC: 26 };
const codes = (change: Partial<Record<Reading, unknown>>) => checkWater({ ...good, ...change }).map(({ code }) => code);

describe('checkWater', () => {
  it('has nothing to say about a good water', () => expect(checkWater(good)).toEqual([]));

  it.each([
    ['nothing at all', { ph: undefined, totalAlkalinity: undefined, calciumHardness: undefined }, 3, 'missing'],
    ['text', { ph: '7.5' }, 1, 'not-a-number'],
    ['null', { ph: null }, 1, 'not-a-number'],
    ['NaN', { salt: Number.NaN }, 1, 'not-a-number'],
    ['infinite', { salt: Infinity }, 1, 'not-a-number'],
    ['negative', { calciumHardness: -1 }, 1, 'negative'],
    ['pH 15', { ph: 15 }, 1, 'impossible'],
    ['pH -1', { ph: -1 }, 1, 'impossible'],
    ['pH 3', { ph: 3 }, 1, 'too-low'],
    ['pH 12', { ph: 12 }, 1, 'too-high'],
    ['78 for a temperature', { temperatureC: 78 }, 1, 'looks-like-fahrenheit'],
    ['ice', { temperatureC: -2 }, 1, 'too-low'],
    ['steam', { temperatureC: 180 }, 1, 'too-high'],
    ['a huge number', { totalAlkalinity: 1e300 }, 1, 'too-high'],
    ['sea water', { salt: 35_000 }, 1, 'too-high'],
    ['alkalinity 0 with pH 8', { ph: 8, totalAlkalinity: 0 }, 1, 'too-little-alkalinity'],
    ['less alkalinity than stabilizer makes', { totalAlkalinity: 20, cyanuricAcid: 100 }, 1, 'too-little-alkalinity'],
    ['less than borate makes', { ph: 8.4, totalAlkalinity: 15, boron: 60 }, 1, 'too-little-alkalinity'],
    ['water that would fizz', { ph: 4.5, totalAlkalinity: 100 }, 1, 'too-much-carbon-dioxide'],
    ['brine', { salt: 25_000, calciumHardness: 3000 }, 1, 'too-concentrated'],
  ] as const)('%s', (_name, change, count, code) => {
    expect(codes(change)).toEqual(Array.from({ length: count }, () => code));
  });

  it('names what contradicts what', () => {
    const [issue] = checkWater({ ...good, totalAlkalinity: 20, cyanuricAcid: 100 });
    expect(issue).toEqual({ code: 'too-little-alkalinity', readings: ['ph', 'totalAlkalinity', 'cyanuricAcid'] });
  });

  it('gives the limit that was passed', () => {
    expect(checkWater({ ...good, boron: 500 })).toEqual([
      { code: 'too-high', reading: 'boron', limit: LIMITS.boron[1] },
    ]);
  });

  it('leaves what is left out at its default', () => {
    expect(waterOf({ ph: 7.5, totalAlkalinity: 80, calciumHardness: 250 })).toMatchObject({
      temperatureC: 25,
      salt: 0,
    });
    expect(checkWater({ ph: 7.5, totalAlkalinity: 80, calciumHardness: 250, salt: undefined })).toEqual([]);
  });

  it('never throws, whatever it is given', () => {
    const anything = fc.oneof(fc.double(), fc.anything());
    const readings = fc.record(
      Object.fromEntries((Object.keys(LIMITS) as Reading[]).map((reading) => [reading, anything])),
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(readings, (given) => {
        expect(Array.isArray(checkWater(given))).toBe(true);
      }),
      runs(1000),
    );
  });
});
