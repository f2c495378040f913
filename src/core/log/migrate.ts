/**
 * From every older data version to the present one, one step at a time, on raw data that has yet to be checked.
 *
 * 1: one value with low and high beside it; additions without what is in them; a pool was a name and a volume.
 *    Never published, like 2, and kept so that the way from old to new is walked.
 * 2: the photo's value and interval are one thing that can be missing; additions carry their chlorine and acid;
 *    a pool knows its chlorinator.
 * 3: an interval says where the scale ends before it does.
 * 4: a word keeps its hedge. What was kept before had lost it; with it came the plan's form and the settings.
 * 5: every value is a measurement that says how it was made; a correction by hand stands beside the photo's value, the
 *    water's temperature is one of the values, and a scale says whether it was invented for practice.
 * 6: plans are entries too, and an addition keeps which product it was, and how strong.
 * 7: a pool knows all that the plan asks of it, which only the plan's form knew before.
 */
import { completed } from '../measurement/measurement.ts';
import { QUANTITY_IDS } from '../measurement/quantities.ts';
import { LOG_VERSION } from './schema.ts';

export interface RawLog {
  readonly pools: readonly unknown[];
  readonly entries: readonly unknown[];
}

type Raw = Readonly<Record<string, unknown>>;

const STEPS: Readonly<Record<number, (log: RawLog) => RawLog>> = {
  1: ({ pools, entries }) => ({ pools: pools.map(poolFrom1), entries: entries.map(entryFrom1) }),
  2: ({ pools, entries }) => ({ pools, entries: entries.map((entry) => withValues(entry, openNowhere)) }),
  3: ({ pools, entries }) => ({ pools, entries: entries.map((entry) => withValues(entry, unknownHedge)) }),
  4: ({ pools, entries }) => ({ pools, entries: entries.map(entryFrom4) }),
  5: ({ pools, entries }) => ({ pools, entries: entries.map(entryFrom5) }),
  6: ({ pools, entries }) => ({ pools: pools.map(poolFrom6), entries }),
};

export type Migrated = { readonly ok: true; readonly log: RawLog } | { readonly ok: false; readonly newer: boolean };

/** @returns not ok for a version that isn't known; `newer` when it comes after this program's */
export function migrate(log: RawLog, version: unknown): Migrated {
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) return { ok: false, newer: false };
  if (version > LOG_VERSION) return { ok: false, newer: true };
  let present = log;
  for (let step = version; step < LOG_VERSION; step++) present = STEPS[step]!(present);
  return { ok: true, log: present };
}

function poolFrom1(pool: unknown): unknown {
  return isRaw(pool) ? { chlorinatorGramsPerDay: null, ...pool } : pool;
}

function entryFrom1(entry: unknown): unknown {
  if (!isRaw(entry)) return entry;
  if (entry['kind'] === 'addition') return { agent: 'other', chlorineGrams: null, acidMoles: null, ...entry };
  return withValues(entry, valueFrom1);
}

function withValues(entry: unknown, change: (value: unknown) => unknown): unknown {
  if (!isRaw(entry) || entry['kind'] !== 'reading' || !Array.isArray(entry['values'])) return entry;
  return { ...entry, values: entry['values'].map(change) };
}

function openNowhere(logged: unknown): unknown {
  return isRaw(logged) ? { openAbove: false, openBelow: false, ...logged } : logged;
}

function unknownHedge(logged: unknown): unknown {
  return isRaw(logged) ? { otherWord: null, isSure: null, ...logged } : logged;
}

function valueFrom1(logged: unknown): unknown {
  if (!isRaw(logged)) return logged;
  const { value, low, high, ...rest } = logged;
  return { alternative: null, ...rest, photo: value === null ? null : { value, low, high } };
}

function entryFrom4(entry: unknown): unknown {
  if (!isRaw(entry) || entry['kind'] !== 'reading' || !Array.isArray(entry['values'])) return entry;
  const { values, waterTemperatureC, scale, ...rest } = entry;
  const old = values as unknown[];
  return {
    unmatched: rest['origin'] === 'photo' ? old.flatMap(unmatchedFrom4) : [],
    ...rest,
    values: [...old.flatMap(valueFrom4), ...temperatureFrom4(waterTemperatureC)],
    scale: isRaw(scale) ? { origin: null, ...scale } : scale,
  };
}

function valueFrom4(logged: unknown): unknown[] {
  if (!isRaw(logged) || !('photo' in logged)) return [logged];
  const { parameter, photo, byHand, word, otherWord, isSure, alternative, offScale, openBelow, openAbove } = logged;
  const rest = { alternative, offScale, openBelow, openAbove };
  const said = { word: wordFrom4(word), otherWord: wordFrom4(otherWord), isSure };
  const isByHand = typeof byHand === 'number';
  const byPhoto = isRaw(photo)
    ? [{ ...rest, quantity: parameter, ...photo, method: 'photo', ...(isByHand ? nothing(said) : said) }]
    : [];
  // What was said was said of the value by hand, without a thought for its interval.
  return isByHand ? [...byPhoto, { ...typed(parameter, byHand), ...said, isSure: null }] : byPhoto;
}

/** That a pad matched nothing is told by the entry now. */
function wordFrom4(word: unknown): unknown {
  return word === 'unmatched' ? null : word;
}

function nothing(said: object): object {
  return Object.fromEntries(Object.keys(said).map((key) => [key, null]));
}

/** How it was measured was never asked. */
function typed(quantity: unknown, value: number, method: 'unsaid' | 'meter' = 'unsaid'): object {
  const known = QUANTITY_IDS.find((id) => id === quantity);
  return known ? completed(known, { value, method }) : { quantity };
}

function unmatchedFrom4(logged: unknown): unknown[] {
  return isRaw(logged) && logged['photo'] === null ? [logged['parameter']] : [];
}

function temperatureFrom4(celsius: unknown): unknown[] {
  if (typeof celsius !== 'number') return [];
  return [{ ...typed('temperature', celsius, 'meter'), word: null, otherWord: null, isSure: null }];
}

/** Which product it was was only told in the visitor's words. */
function entryFrom5(entry: unknown): unknown {
  if (!isRaw(entry) || entry['kind'] !== 'addition') return entry;
  return { productId: null, strength: null, ...entry };
}

/** The form's fields come to it when the logbook is opened: see `Logbook.pool`. */
function poolFrom6(pool: unknown): unknown {
  return isRaw(pool) ? { details: {}, ...pool } : pool;
}

function isRaw(value: unknown): value is Raw {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
