import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert, convertTemperature, FACTORS, type Quantity, type UnitOf } from '../../../src/core/water/units.ts';
import { readTable } from '../../reference/read-table.ts';

const QUANTITIES = ['volume', 'mass', 'length', 'area', 'flow', 'energy', 'power', 'hardness'] as const;

/** Half a unit of the last printed figure. */
const printedPrecision = (text: string) => {
  const [digits, exponent] = text.split('E');
  return 0.5 * 10 ** (Number(exponent) - (digits!.split('.')[1]?.length ?? 0));
};

describe('units against NIST SP 811', () => {
  const rows = readTable('nist-sp811-units.csv');

  it('has rows to check', () => expect(rows.length).toBeGreaterThan(10));

  it.each(rows)('$unit is $factor $si_unit', ({ quantity, unit, factor, exact, si_in_base }) => {
    const q = quantity as Quantity;
    const base = Object.keys(FACTORS[q])[0] as never;
    const ours = convert(q, 1, unit as never, base) / Number(si_in_base);
    if (exact === 'yes') expect(ours / Number(factor)).toBeCloseTo(1, 14);
    else expect(Math.abs(ours - Number(factor))).toBeLessThanOrEqual(printedPrecision(factor!));
  });
});

describe('units against the dose facts', () => {
  const fact = (id: string) => Number(readTable('dose-facts.csv').find((row) => row['id'] === id)!['value']);

  it.each([
    ['D001', () => convert('volume', 1, 'gal', 'L')],
    ['D002', () => convert('mass', 1, 'lb', 'g')],
    ['D003', () => convert('mass', 1, 'oz', 'g')],
    ['D004', () => convert('volume', 1, 'fl oz', 'mL')],
    ['D005', () => convert('volume', 1, 'ft3', 'L')],
    ['D006', () => convert('volume', 1, 'ft3', 'gal')],
    ['D007', () => convert('volume', 10_000, 'gal', 'L')],
    ['D008', () => convert('hardness', 1, 'gr/gal', 'mg/L')],
    ['D009', () => convert('hardness', 1, 'dH', 'mg/L')],
    ['D010', () => convert('hardness', 1, 'fH', 'mg/L')],
    ['D012', () => convert('hardness', 1, 'meq/L', 'mg/L')],
    ['D015', () => convert('hardness', 10, 'mg/L', 'meq/L')],
  ])('%s', (id, ours) => {
    expect(ours() / fact(id)).toBeCloseTo(1, 4);
  });
});

describe('there and back', () => {
  it('changes nothing', () => {
    const anyUnits = fc
      .constantFrom(...QUANTITIES)
      .chain((quantity) =>
        fc.tuple(
          fc.constant(quantity),
          fc.constantFrom(...(Object.keys(FACTORS[quantity]) as UnitOf<Quantity>[])),
          fc.constantFrom(...(Object.keys(FACTORS[quantity]) as UnitOf<Quantity>[])),
          fc.double({ min: 1e-6, max: 1e9, noNaN: true }),
        ),
      );
    fc.assert(
      fc.property(anyUnits, ([quantity, one, other, value]) => {
        const there = convert(quantity, value, one as never, other as never);
        expect(convert(quantity, there, other as never, one as never) / value).toBeCloseTo(1, 12);
      }),
      { seed: 31, numRuns: 300 },
    );
  });

  it('holds for temperatures', () => {
    fc.assert(
      fc.property(fc.double({ min: -40, max: 120, noNaN: true }), (celsius) => {
        expect(convertTemperature(convertTemperature(celsius, 'C', 'F'), 'F', 'C')).toBeCloseTo(celsius, 10);
      }),
      { seed: 32, numRuns: 200 },
    );
  });
});

describe('temperature', () => {
  it.each([
    [0, 32],
    [100, 212],
    [-40, -40],
    [37.8, 100.04],
  ])('%d °C is %d °F', (celsius, fahrenheit) => {
    expect(convertTemperature(celsius, 'C', 'F')).toBeCloseTo(fahrenheit, 10);
    expect(convertTemperature(fahrenheit, 'F', 'C')).toBeCloseTo(celsius, 10);
  });

  it.each(['C', 'F'] as const)('%s is %s, to the last digit', (unit) => {
    expect(convertTemperature(25.3, unit, unit)).toBe(25.3);
  });
});
