import { describe, expect, it } from 'vitest';
import {
  assumedUse,
  chlorinatorHours,
  faradayCeiling,
  hoursToRaise,
  measuredUse,
} from '../../../src/core/pool/chlorinator.ts';
import { heatNeeded } from '../../../src/core/pool/heat.ts';
import { DERATING, filteredShare, turnover } from '../../../src/core/pool/turnover.ts';
import { convert } from '../../../src/core/water/units.ts';
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

  // 3 h by the plate: 3 / 0.7, from 3 / 0.9 to 3 / 0.5; the share is common practice, no source.
  it('spans the hours by what plumbing takes, unless the flow was measured', () => {
    const plate = turnover(30_000, { litresPerHour: 10_000, basis: 'rated' });
    expect(plate.hours).toBeCloseTo(4.2857, 4);
    expect(plate.lowHours).toBeCloseTo(3.3333, 4);
    expect(plate.highHours).toBeCloseTo(6, 10);
    expect(turnover(30_000, { litresPerHour: 10_000, basis: 'measured' })).toEqual({
      hours: 3,
      lowHours: 3,
      highHours: 3,
    });
  });

  it.each([
    [1, 'D102'],
    [2, 'D103'],
    [3, 'D104'],
    [4, 'D105'],
  ])('%d turnovers filter the share of %s', (turnovers, id) => {
    expect(100 * filteredShare(turnovers)).toBeCloseTo(fact(id), 3);
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

describe('a cell’s day', () => {
  // 50,000 L times 12 mg/L are 600 g: 24 h at 25 g/h.
  it('is full at 24 hours, and too short beyond', () => {
    const hours = (use: number, setting = 1) =>
      chlorinatorHours(50_000, { value: use, low: use / 2, high: 2 * use }, { gramsPerHour: 25, setting });
    expect(hours(12)).toEqual({ hours: 24, lowHours: 12, highHours: 48, beyondDay: false, aboveCeiling: false });
    expect(hours(12.1).beyondDay).toBe(true);
    expect(hours(6, 0.5).hours).toBe(24);
  });

  // D099: 1.3228 g for an ampere and hour; 10 A through 2 gaps make at most 26.5 g/h.
  it('is promised too much beyond Faraday’s law, where current and gaps are known', () => {
    const above = (cell: { gramsPerHour: number; amperes?: number; gaps?: number }) =>
      chlorinatorHours(50_000, { value: 1, low: 1, high: 1 }, { setting: 1, ...cell }).aboveCeiling;
    expect(above({ gramsPerHour: 26.4, amperes: 10, gaps: 2 })).toBe(false);
    expect(above({ gramsPerHour: 26.5, amperes: 10, gaps: 2 })).toBe(true);
    expect(above({ gramsPerHour: 500, amperes: 10 })).toBe(false);
    expect(above({ gramsPerHour: 500, gaps: 2 })).toBe(false);
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

  it('is none, not less, where the readings only overlap, and is told by day from by night', () => {
    const found = measuredUse({ before: span(3, 0.2), after: span(3.1, 0.2), hours: 6, night: false })!;
    expect(found).toMatchObject({ value: 0, low: 0, basis: 'measured-day' });
    // (3.2 - 2.9) in 6 h.
    expect(found.high).toBeCloseTo(1.2, 10);
    const touching = {
      before: { value: 3, low: 3, high: 4 },
      after: { value: 4, low: 4, high: 5 },
      hours: 6,
      night: true,
    };
    expect(measuredUse(touching)).toMatchObject({ value: 0, low: 0, high: 0 });
    expect(measuredUse({ ...touching, hours: -6 })).toBeNull();
  });

  // Common practice, no source.
  it.each([
    ['sun-stabilised', 2.5, 1.5, 4],
    ['sun-unstabilised', 6, 3, 10],
    ['covered', 1, 0.5, 2],
  ] as const)('is assumed %s', (exposure, value, low, high) => {
    expect(assumedUse(exposure)).toEqual({ value, low, high, basis: 'assumed' });
  });

  it('is marked where it is assumed', () => {
    expect(assumedUse('sun-stabilised').basis).toBe('assumed');
    expect(assumedUse('covered').value).toBeLessThan(assumedUse('sun-stabilised').value);
    expect(assumedUse('sun-stabilised').value).toBeLessThan(assumedUse('sun-unstabilised').value);
  });
});

describe('heat', () => {
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
    const btu = convert('energy', heatNeeded(gallons(1), 1 / 1.8), 'kWh', 'BTU');
    expect(btu).toBeCloseTo(8.3, 1);
  });
});
