import { describe, expect, it } from 'vitest';
import {
  assumedUse,
  chlorinatorHours,
  faradayCeiling,
  hoursToRaise,
  measuredUse,
} from '../../../src/core/pool/chlorinator.ts';
import { heaterPower, heatNeeded, hoursToWarm, riseAfter } from '../../../src/core/pool/heat.ts';
import { DERATING, filteredShare, turnover, turnoversFor } from '../../../src/core/pool/turnover.ts';
import { convert, convertTemperatureDifference } from '../../../src/core/water/units.ts';
import { readTable } from '../../reference/read-table.ts';

const fact = (id: string) => Number(readTable('dose-facts.csv').find((row) => row['id'] === id)!['value']);
const gallons = (value: number) => convert('volume', value, 'gal', 'L');

describe('turnover', () => {
  it('7,000 gal at 3,000 gal/h take about 2.3 h (common practice, no source)', () => {
    const flow = { litresPerHour: convert('flow', 3000, 'gal/h', 'L/h'), basis: 'measured' } as const;
    expect(turnover(gallons(7000), flow).hours).toBeCloseTo(2.333, 3);
  });

  it('agrees with the worked hours (D106, D107)', () => {
    const flow = { litresPerHour: convert('flow', 40, 'gal/min', 'L/h'), basis: 'measured' } as const;
    expect(turnover(gallons(20_000), flow).hours).toBeCloseTo(fact('D106'), 4);
    expect(turnover(50_000, { litresPerHour: 10_000, basis: 'measured' }).hours).toBeCloseTo(fact('D107'), 10);
  });

  it("takes a pump's plate with a pinch of salt", () => {
    const { hours, lowHours, highHours } = turnover(30_000, { litresPerHour: 10_000, basis: 'rated' });
    expect(lowHours).toBeLessThan(hours);
    expect(hours).toBeLessThan(highHours);
    expect(lowHours).toBeGreaterThan(3);
    expect(DERATING.high).toBeLessThan(1);
  });

  it.each([
    [1, 'D102'],
    [2, 'D103'],
    [3, 'D104'],
    [4, 'D105'],
  ])('%d turnovers filter the share of %s', (turnovers, id) => {
    expect(100 * filteredShare(turnovers)).toBeCloseTo(fact(id), 3);
    expect(turnoversFor(fact(id) / 100)).toBeCloseTo(turnovers, 3);
  });
});

describe('the chlorinator', () => {
  it("knows Faraday's law (D099, CODATA 2018)", () => {
    expect(faradayCeiling(1, 1)).toBeCloseTo(fact('D099'), 4);
    expect(faradayCeiling(5, 6)).toBeCloseTo(30 * 1.3227, 2);
  });

  it('works out the hours (D100, D101)', () => {
    const exactly = (value: number) => ({ value, low: value, high: value });
    expect(chlorinatorHours(50_000, exactly(2), { gramsPerHour: 20, setting: 1 }).hours).toBeCloseTo(fact('D100'), 10);
    const gramsPerHour = convert('mass', 1.4, 'lb', 'g') / 24;
    const { hours } = chlorinatorHours(gallons(15_000), exactly(3), { gramsPerHour, setting: 0.6 });
    expect(hours).toBeCloseTo(fact('D101'), 2);
    expect(hoursToRaise(50_000, 2, { gramsPerHour: 20, setting: 0.5 })).toBeCloseTo(2 * fact('D100'), 10);
  });

  it('says when the cell is too small or its claim too big', () => {
    const found = chlorinatorHours(80_000, assumedUse('sun-unstabilised'), {
      gramsPerHour: 12,
      setting: 1,
      amperes: 4,
      gaps: 2,
    });
    expect(found.beyondDay).toBe(true);
    expect(found.aboveCeiling).toBe(true);
    expect(found.lowHours).toBeLessThan(found.hours);
    expect(
      chlorinatorHours(30_000, assumedUse('covered'), { gramsPerHour: 12, setting: 1, amperes: 5, gaps: 4 })
        .aboveCeiling,
    ).toBe(false);
  });
});

describe('chlorine use', () => {
  const span = (value: number, by: number) => ({ value, low: value - by, high: value + by });

  it('comes from two readings, with their spans', () => {
    expect(measuredUse({ before: span(4, 0.2), after: span(3, 0.2), hours: 12, night: true })).toEqual({
      value: 2,
      low: expect.closeTo(1.2, 10) as number,
      high: expect.closeTo(2.8, 10) as number,
      basis: 'measured-overnight',
    });
    expect(measuredUse({ before: span(4, 0), after: span(1.5, 0), hours: 24, night: false })!.value).toBeCloseTo(2.5);
  });

  it('refuses chlorine that rose by itself, and no time', () => {
    expect(measuredUse({ before: span(2, 0.2), after: span(4, 0.2), hours: 12, night: true })).toBeNull();
    expect(measuredUse({ before: span(4, 0), after: span(3, 0), hours: 0, night: true })).toBeNull();
  });

  it('is marked where it is assumed', () => {
    expect(assumedUse('sun-stabilised').basis).toBe('assumed');
    expect(assumedUse('covered').value).toBeLessThan(assumedUse('sun-stabilised').value);
    expect(assumedUse('sun-stabilised').value).toBeLessThan(assumedUse('sun-unstabilised').value);
  });
});

describe('heat', () => {
  it('1,200 gal/h warmed by 7-8 °F lift 7,000 gal by about 10 °F in 8 h (common practice, no source)', () => {
    const rise = (fahrenheit: number) =>
      convertTemperatureDifference(
        riseAfter(
          gallons(7000),
          convert('flow', 1200, 'gal/h', 'L/h'),
          convertTemperatureDifference(fahrenheit, 'F', 'C'),
          8,
        ),
        'C',
        'F',
      );
    expect(rise(7)).toBeCloseTo(9.6, 10);
    expect(rise(8)).toBeCloseTo(10.97, 2);
  });

  it("takes the energy of Perry's table at 290, 300 and 310 K within half a per cent", () => {
    const perry = [
      [0.075429, 55.44],
      [0.07532, 55.315],
      [0.075294, 55.139],
    ] as const;
    for (const [molarHeat, molesPerLitre] of perry) {
      expect(heatNeeded(1, 1) / ((molarHeat * molesPerLitre) / 3600)).toBeCloseTo(1, 2);
      expect(Math.abs(heatNeeded(1, 1) / ((molarHeat * molesPerLitre) / 3600) - 1)).toBeLessThan(0.005);
    }
  });

  it('needs about 8.3 BTU per gallon and °F, as one BTU warms a pound by one °F', () => {
    const btu = convert('energy', heatNeeded(gallons(1), convertTemperatureDifference(1, 'F', 'C')), 'kWh', 'BTU');
    expect(btu).toBeCloseTo(8.3, 1);
  });

  it('energy, power and hours agree', () => {
    const hours = hoursToWarm(26_500, 5, 4500, 4);
    expect(heaterPower(4500, 4) * hours).toBeCloseTo(heatNeeded(26_500, 5), 9);
    expect(riseAfter(26_500, 4500, 4, hours)).toBeCloseTo(5, 9);
  });
});
