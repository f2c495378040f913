/** A season of the invented pool: round, 5.5 m across, with a salt chlorinator, in a hillside garden. */
import type { AdditionEntry, Entry, LogData, LoggedValue, Pool, ReadingEntry } from '../../src/core/log/schema.ts';
import type { PadQuantity } from '../../src/core/measurement/quantities.ts';
import { randomFrom } from '../core/log/random.ts';

export const POOL: Pool = {
  id: 'first-pool',
  name: 'Round pool, hillside garden',
  revision: 3,
  edited: '2026-05-01T08:00:00.000Z',
  volumeLitres: 28_500,
  chlorinatorGramsPerDay: 45,
  details: {},
};

const START = Date.parse('2026-05-02T07:30:00.000Z');
const DAY = 86_400_000;
type Random = ReturnType<typeof randomFrom>;

function logged(parameter: PadQuantity, value: number, half: number): LoggedValue {
  const round = (x: number) => Math.max(0, Math.round(x * 100) / 100);
  return {
    quantity: parameter,
    value: round(value),
    low: round(value - half),
    high: round(value + half),
    method: 'photo',
    alternative: null,
    offScale: null,
    openAbove: false,
    openBelow: false,
    word: wordFor(parameter, value),
    otherWord: null,
    isSure: wordFor(parameter, value - half) === wordFor(parameter, value + half),
  };
}

const SPANS: Partial<Record<PadQuantity, readonly [number, number]>> = {
  'free-chlorine': [2.5, 6.5],
  ph: [7.2, 7.8],
  'total-alkalinity': [60, 100],
};

function wordFor(parameter: PadQuantity, value: number): 'low' | 'in-range' | 'high' {
  const [low, high] = SPANS[parameter] ?? [0, Infinity];
  return value < low ? 'low' : value > high ? 'high' : 'in-range';
}

function common(number: number, day: number) {
  const time = new Date(START + day * DAY).toISOString();
  const id = `season-${String(number).padStart(6, '0')}`;
  return { id, poolId: POOL.id, revision: 1, edited: time, time, zoneMinutes: 120, note: '' };
}

/** @param readings how many, `every` days apart */
export function season(readings: number, every = 2): LogData {
  // The same for everyone, whichever test comes first.
  const random = randomFrom(550);
  const entries: Entry[] = [];
  let chlorine = 3;
  let ph = 7.3;
  for (let i = 0; i < readings; i++) {
    const day = i * every;
    entries.push(reading(entries.length, day, chlorine, ph, i, random));
    if (ph > 7.6) {
      entries.push(addition(entries.length, day + 0.05));
      ph -= 0.4;
    }
    if (i % 9 === 4) entries.push(weather(entries.length, day + 0.3));
    chlorine = Math.max(0.5, chlorine + 0.25 * (3.8 - chlorine) + 0.45 * random.normal());
    ph += every * (0.045 + 0.02 * random.normal());
  }
  return { pools: [POOL], entries };
}

function reading(
  number: number,
  day: number,
  chlorine: number,
  ph: number,
  i: number,
  { normal, uniform }: Random,
): ReadingEntry {
  return {
    ...common(number, day),
    kind: 'reading',
    origin: 'photo',
    values: [
      logged('free-chlorine', chlorine + 0.2 * normal(), 0.5),
      logged('ph', ph + 0.05 * normal(), 0.15),
      logged('total-alkalinity', 90 + 4 * normal(), 12),
      ...(i % 5 === 0 ? [logged('cyanuric-acid', 45 + 3 * normal(), 10)] : []),
    ],
    unmatched: [],
    scale: { id: 'practice-five', name: 'Practice scale, five pads', origin: 'practice' },
    correction: 'neutrals',
    sinceDipSeconds: 18 + Math.floor(8 * uniform()),
    warnings: i % 7 === 3 ? ['uneven-light'] : [],
    quality: { neutralResidual: 0.7, shadingPercent: 6, marksResidualMm: 0.08 },
    pictureId: null,
  };
}

function addition(number: number, day: number): AdditionEntry {
  return {
    ...common(number, day),
    kind: 'addition',
    origin: 'planned',
    product: 'Hydrochloric (muriatic) acid',
    agent: 'acid',
    amount: 400,
    unit: 'mL',
    productId: 'hydrochloric-acid',
    strength: 31.45,
    chlorineGrams: null,
    acidMoles: 4,
  };
}

function weather(number: number, day: number): Entry {
  return {
    ...common(number, day),
    kind: 'weather',
    note: 'Leaves on the water after the wind.',
    airTemperatureC: 24,
    sky: 'storm',
    rainMm: 12,
    bathers: null,
  };
}
