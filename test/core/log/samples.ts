/** The invented pool: round, 5.5 m across and 1.2 m deep, with a salt chlorinator, in a hillside garden. */
import type { AdditionEntry, Agent, Entry, LoggedValue, Pool, ReadingEntry } from '../../../src/core/log/schema.ts';
import type { QuantityId } from '../../../src/core/measurement/quantities.ts';

export const POOL: Pool = {
  id: 'hillside-pool',
  name: 'Round pool, hillside garden',
  revision: 1,
  edited: '2026-05-01T08:00:00.000Z',
  volumeLitres: 28_500,
  chlorinatorGramsPerDay: null,
  details: {},
};

const START = Date.parse('2026-06-01T07:00:00.000Z');

export function dayTime(day: number): string {
  return new Date(START + Math.round(day * 86_400_000)).toISOString();
}

let made = 0;

function common(day: number) {
  made += 1;
  return {
    id: `sample-${String(made).padStart(6, '0')}`,
    poolId: POOL.id,
    revision: 1,
    edited: dayTime(day),
    time: dayTime(day),
    zoneMinutes: 120,
    note: '',
  };
}

export function loggedValue(quantity: QuantityId, value: number, half = 0): LoggedValue {
  return {
    quantity,
    value,
    low: Math.max(0, value - half),
    high: value + half,
    alternative: null,
    offScale: null,
    openAbove: false,
    openBelow: false,
    method: 'photo',
    word: 'in-range',
    otherWord: null,
    isSure: half === 0,
  };
}

export function reading(day: number, values: readonly LoggedValue[], rest: Partial<ReadingEntry> = {}): ReadingEntry {
  return {
    ...common(day),
    kind: 'reading',
    origin: 'photo',
    values: [...values],
    unmatched: [],
    scale: { id: 'practice-4', name: 'Practice scale', origin: 'practice' },
    correction: 'neutrals',
    sinceDipSeconds: 20,
    warnings: [],
    quality: null,
    pictureId: null,
    ...rest,
  };
}

export function addition(day: number, agent: Agent, rest: Partial<AdditionEntry> = {}): AdditionEntry {
  return {
    ...common(day),
    kind: 'addition',
    origin: 'typed',
    product: agent,
    agent,
    amount: 1,
    unit: 'L',
    chlorineGrams: null,
    acidMoles: null,
    productId: null,
    strength: null,
    ...rest,
  };
}

export function isReading(entry: Entry): entry is ReadingEntry {
  return entry.kind === 'reading';
}
