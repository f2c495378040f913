/** What rain, splash and backwash do to salt over a season. */
import { concentrationAfter, dailyFlows, type WaterBalance } from '../../core/pool/losses.ts';
import { convert } from '../../core/water/units.ts';
import { litresOf } from '../../words/figures.ts';
import { EXAMPLE_POOL, examplePoolLitres } from '../drawings/example.ts';
import { drawPlot, line, plot, spot, steps, valueAtX } from './chart.ts';
import { numberText } from '../../words/numbers.ts';
import type { Control, Instrument, Settings } from './instrument.ts';

const POUNDS = { unit: 'lb', each: convert('mass', 1, 'kg', 'lb') };
const INCHES = { unit: 'in', each: convert('length', 1, 'mm', 'in') };
const GALLONS = { unit: 'US gal', each: convert('volume', 1, 'L', 'gal') };

export const controls: readonly Control[] = [
  { name: 'salt', label: 'Salt in spring', unit: 'mg/L', min: 500, max: 5000, step: 50, start: 3200 },
  { name: 'added', label: 'Salt added then', unit: 'kg', us: POUNDS, min: 0, max: 100, step: 1, start: 0 },
  { name: 'rain', label: 'Rain in a week', unit: 'mm', us: INCHES, min: 0, max: 80, step: 1, start: 25 },
  { name: 'backwash', label: 'Backwash in a week', unit: 'L', us: GALLONS, min: 0, max: 1500, step: 50, start: 400 },
  { name: 'weeks', label: 'Weeks', unit: '', min: 0, max: 26, step: 1, start: 20 },
];

/** Common practice, no source: an open pool in a mild summer, and what swimmers carry out. */
const EVAPORATION_MM_PER_DAY = 4;
const SPLASH_LITRES_PER_DAY = 10;
/** What many chlorinators want; common practice, no source. The unit's own label decides. */
const WANTED = { low: 2700, high: 3400 } as const;

const chart = plot(
  { from: 0, to: 26, ticks: [0, 5, 10, 15, 20, 25], name: 'weeks' },
  { from: 0, to: 6000, ticks: [0, 1000, 2000, 3000, 4000, 5000, 6000], name: 'salt, mg/L' },
);

export const saltSeason: Instrument = {
  controls,
  show(settings) {
    const start = startOf(settings);
    const weeks = settings['weeks']!;
    const now = saltAfter(settings, weeks);
    const answer = `${round(start)} mg/L in spring is ${round(now)} mg/L after ${weeks} weeks. ${lossOf(settings, start, now)}`;
    const curve = steps(0, 26, 52).map((week) => [week, Math.min(6000, saltAfter(settings, week))] as const);
    const band = [WANTED.low, WANTED.high].map((level) =>
      line(
        chart,
        [
          [0, level],
          [26, level],
        ],
        'limit',
      ),
    );
    return {
      picture: drawPlot(chart, answer, ...band, line(chart, curve), spot(chart, [weeks, Math.min(6000, now)])),
      answer,
    };
  },
  drag: { axes: 'x', to: (x) => ({ weeks: valueAtX(chart, x) }) },
};

/** mg/L once the salt added in spring has dissolved. */
export function startOf({ salt, added }: Settings): number {
  return salt! + (added! * 1e6) / examplePoolLitres();
}

export function saltAfter(settings: Settings, weeks: number): number {
  return concentrationAfter(balanceOf(settings), startOf(settings), 0, weeks * 7);
}

function balanceOf({ rain, backwash }: Settings): WaterBalance {
  return {
    volumeLitres: examplePoolLitres(),
    surfaceM2: (Math.PI / 4) * EXAMPLE_POOL.diameterM ** 2,
    evaporationMmPerDay: EVAPORATION_MM_PER_DAY,
    rainMmPerDay: rain! / 7,
    splashLitresPerDay: SPLASH_LITRES_PER_DAY,
    backwashLitresPerDay: backwash! / 7,
  };
}

function lossOf(settings: Settings, start: number, now: number): string {
  const { outLitres, overflowLitres } = dailyFlows(balanceOf(settings));
  const kilograms = ((start - now) * examplePoolLitres()) / 1e6;
  const how = overflowLitres > 0 ? 'Some of the rain ran over. ' : '';
  return `${how}About ${litresOf(outLitres * 7, 1)} a week left with their salt, ${numberText(kilograms, { decimals: kilograms < 10 ? 1 : 0 })} kg (${numberText(kilograms * POUNDS.each, { figures: 2 })} lb) in all; none was used up by the cell.`;
}

function round(milligrams: number): string {
  return String(Math.round(milligrams / 10) * 10);
}
