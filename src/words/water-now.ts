/** What is said of the estimate: the water now by all readings together, what doesn't fit, what was learnt. */
import type { Estimate } from '../core/measurement/measurement.ts';
import { type QuantityId, unitOf } from '../core/measurement/quantities.ts';
import type { DoseResult, Outcome } from '../core/progress/dose-results.ts';
import type { QuantityNow, WaterNow } from '../core/track/estimate.ts';
import type { OddityTold } from '../core/track/told-oddities.ts';
import type { Choice as WhyUsed } from '../core/track/plan-start.ts';
import { convert, convertTemperature, type UnitSystem } from '../core/water/units.ts';
import { dateFormat, dateText } from './dates.ts';
import { capitalised, countText } from './grammar.ts';
import { formatInterval, formatMeasured, numberText } from './numbers.ts';
import { productName, stepTitle } from './plan/names.ts';
import { quantityName, quantityTitle } from './quantities.ts';

export const COURSE_KEY = 'The line and its band: the water by all readings and additions together.';
export const BY_ALL_READINGS = 'By all readings together';
/** Where the log ends long ago. */
export function byAllReadingsOn(time: string): string {
  return `${BY_ALL_READINGS}, on ${dateText(time)}`;
}
export const BY_ALL_HINT =
  'What differs from photo to photo averages out; what a scale always gets wrong doesn’t, and a drop test finds it. Nine times in ten the truth lies where it says “likely”.';
export const NOT_EXPLAINED = 'What the log doesn’t explain';

function dayText(iso: string): string {
  return dateFormat({ day: 'numeric', month: 'long' }).format(new Date(iso));
}

function amountOf(quantity: QuantityId, value: number): string {
  const unit = unitOf(quantity);
  return `${formatMeasured(value, unit)}${quantity === 'ph' ? '' : ` ${unit}`}`;
}

/** What may be behind a change that nobody wrote down. */
function causes(quantity: QuantityId, change: number): string {
  if (quantity === 'ph' || quantity === 'free-chlorine') return 'something not written down?';
  return change < 0 ? 'rain, backwash, or something not written down?' : 'something added and not written down?';
}

export function oddityText({ kind, quantity, from, to, change, value, bound, expected }: OddityTold): string {
  const name = quantityTitle(quantity);
  if (kind === 'jump') {
    const moved = `${change! < 0 ? 'fell' : 'rose'} by about ${amountOf(quantity, Math.abs(change!))}`;
    const [first, last] = [dayText(from), dayText(to)];
    const when = first === last ? `on ${last}` : `between ${first} and ${last}`;
    return `${name} ${moved} ${when}: ${causes(quantity, change!)}`;
  }
  const read = amountOf(quantity, value!) + (bound ? { above: ' or more', below: ' or less' }[bound] : '');
  const due = amountOf(quantity, Math.max(0, expected!));
  return kind === 'misfit'
    ? `${name} ${read} on ${dayText(to)} doesn’t fit what was read before and after, about ${due}: it counts for little.`
    : `${name} ${read} doesn’t fit what was known before, about ${due}: dip again before you act.`;
}

export function nowText({ quantity, value, low, high, readings, additions }: QuantityNow): string {
  const from = [
    countText(readings, 'reading', 'readings'),
    additions > 0 ? countText(additions, 'addition', 'additions') : '',
  ];
  return `${amountOf(quantity, value)}, likely ${formatInterval(low, high, unitOf(quantity))}, from ${from.filter(Boolean).join(' and ')}`;
}

export function volumeLearntText({ value, low, high }: Estimate, stated: number | null, units: UnitSystem): string {
  const shown = (litres: number) =>
    numberText(units === 'us' ? convert('volume', litres, 'L', 'gal') : litres, { figures: 3 });
  const unit = units === 'us' ? 'US gal' : 'L';
  const given = stated === null ? '' : `; ${shown(stated)} ${unit} stands in the logbook`;
  return `By what the additions did, the pool holds about ${shown(value)} ${unit} (${shown(low)} to ${shown(high)})${given}.`;
}
/** @param rise mg/L, by the stated volume */
export function volumeExperimentText(kilograms: number, rise: number, units: UnitSystem): string {
  const salt =
    units === 'us' ? `${numberText(convert('mass', kilograms, 'kg', 'lb'), { figures: 2 })} lb` : `${kilograms} kg`;
  return `How much water the pool really holds can be measured: test the salt three times by one meter, add ${salt} of salt, let the pump run without topping up, and test three times again a day later, writing each down. It should rise by about ${numberText(rise, { figures: 2 })} mg/L; a smaller rise means more water.`;
}
export const USE_LEARNT = 'Use it from now on';
export const REFUSE_LEARNT = 'Leave it';

/** The plan's form: the test at hand beside all readings together. */
export const ALL_READINGS = {
  start: 'Start the plan from all readings together',
  table: 'This test and all readings together',
  quantity: 'reading, and what is used when ticked',
  reading: 'this test',
  estimate: 'all together',
} as const;

/** The value, and its interval in brackets. */
export function estimateTexts(quantity: QuantityId, estimate: Estimate, units: UnitSystem): readonly [string, string] {
  const isFahrenheit = quantity === 'temperature' && units === 'us';
  const shown = (value: number) => (isFahrenheit ? convertTemperature(value, 'C', 'F') : value);
  const { value, low, high } = estimate;
  const unit = unitOf(quantity);
  return [formatMeasured(shown(value), unit), `(${formatInterval(shown(low), shown(high), unit)})`];
}

const WHY_USED: Record<WhyUsed, string> = {
  'estimate-is-surer': 'all together: surer than one test',
  'only-estimate': 'all together: not read this time',
  'reading-is-as-sure': 'this test: as sure by itself',
  'moves-in-hours': 'this test: it changes within hours',
  'only-reading': 'this test: too little else in the log',
  'reading-does-not-fit': 'this test: it doesn’t fit the others, so dip again first',
};

export function whyUsed(why: WhyUsed): string {
  return WHY_USED[why];
}

export const PREDICTION_KEY = 'Dashed frames: where a dose of a plan was to bring the water.';
export const DOSE_RESULTS = 'What the doses did';

const OUTCOMES: Record<Outcome, string> = {
  landed: 'It landed where it should.',
  short: 'It fell short of that.',
  beyond: 'It went beyond that.',
};

export function doseResultText(result: DoseResult, now: Date): string {
  const { quantity, kind, done, predicted, reading, outcome, ratio } = result;
  const name = quantityName(quantity);
  const due = `${stepTitle(kind)}, ${dayText(done)}: ${name} was to come to ${formatInterval(predicted.low, predicted.high, unitOf(quantity))}`;
  if (!reading || !outcome) return `${due}; ${untoldText(result, now)}`;
  return [
    `${due}; ${amountOf(quantity, reading.value)} was read on ${dayText(reading.time)}.`,
    OUTCOMES[outcome],
    teaches(quantity, outcome, ratio),
  ]
    .filter(Boolean)
    .join(' ');
}

function untoldText({ untold, until }: DoseResult, now: Date): string {
  switch (untold) {
    case 'disturbed':
      return 'something else that moves it went in before the next test, so nobody can tell.';
    case 'bound':
      return 'the next test says no more than “above” or “below”, so nobody can tell.';
    default:
      return Date.parse(until) > now.getTime() ? 'no test has looked at it yet.' : 'no test was made in time to tell.';
  }
}

/** What a dose that missed may tell of the pool. */
function teaches(quantity: QuantityId, outcome: Outcome, ratio: Estimate | null): string {
  if (outcome === 'landed') return '';
  const did = ratio ? `It did ${sharesText(ratio)} of what was due: ` : '';
  const why = WHY_MISSED[quantity === 'ph' || quantity === 'free-chlorine' ? quantity : 'other'][outcome];
  return did === '' ? capitalised(why) : did + why;
}

type Strength = WaterNow['learnt']['strengths'][number];

/** "Calcium chloride did 92 % (86 to 98 %) of what its strength in the log would do." The usual one where none was told. */
export function strengthText(strength: Strength): string {
  return `${capitalised(didText(strength))}.`;
}

export function goByText(strength: Strength): string {
  return `Go by what the logbook has learnt: ${didText(strength)}.`;
}

function didText({ product, ...share }: Strength): string {
  return `${productName(product)} did ${sharesText(share)} of what its strength in the log would do`;
}

/** "92 % (86 to 98 %)" */
function sharesText({ value, low, high }: Estimate): string {
  const [middle, from, to] = [value, low, high].map((share) =>
    numberText(100 * Math.max(0, share), { figures: share < 1 ? 2 : 3 }),
  );
  return `${middle} % (${from} to ${to} %)`;
}

const WHY_MISSED = {
  ph: {
    short: 'the water is better buffered than was read, the product weaker than its label, or the pool larger.',
    beyond: 'the water is less buffered than was read, the product stronger than was thought, or the pool smaller.',
  },
  'free-chlorine': {
    short: 'the water uses up more than was thought, or the product has lost strength.',
    beyond: 'the product is stronger than was thought, the pool smaller, or something else went in too.',
  },
  other: {
    short: 'the pool holds more water than stands in the plan, or the product is weaker than its label.',
    beyond:
      'the pool holds less water than stands in the plan, the product is stronger than was thought, or something else went in too.',
  },
} as const;
