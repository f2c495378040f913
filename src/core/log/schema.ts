/**
 * What the logbook holds. Everything that comes out of storage or a file goes through these schemas.
 * Times are UTC; `zoneMinutes` says what the clock on the wall showed.
 */
import * as z from 'zod/mini';
import { foundFields, type Measurement, usedScaleSchema } from '../measurement/measurement.ts';
import { PAD_QUANTITIES, QUANTITY_IDS } from '../measurement/quantities.ts';
import { isCleanText } from '../text.ts';

/** See `migrate.ts` for what changed when. */
export const LOG_VERSION = 7;

const id = z.string().check(z.regex(/^[A-Za-z0-9][A-Za-z0-9-]{3,63}$/));
export const text = (longest: number) =>
  z.string().check(z.maxLength(longest), z.refine(isCleanText, { params: { code: 'control-characters' } }));
const name = text(120).check(z.refine((value) => value.trim() !== '', { params: { code: 'no-name' } }));
const number = (min: number, max: number) => z.number().check(z.minimum(min), z.maximum(max));
const whole = (min: number, max: number) => z.int().check(z.minimum(min), z.maximum(max));
/** As `Date.prototype.toISOString` writes it, so that times sort as text. */
const time = z.iso.datetime({ precision: 3 });
const revision = whole(1, 1_000_000_000);

const word = z.enum(['low', 'in-range', 'high', 'off-scale', 'unmatched']);

/** A measurement, and what was said of it on the day. Its time and its scale are the entry's. */
export const loggedValueSchema = z
  .object({
    ...foundFields,
    /** As it was worded on the day, by the targets of the day. */
    word: z.nullable(word),
    /** Of the second value, where it was another one. */
    otherWord: z.nullable(word),
    /** The word held all over the interval; null where it isn't known. */
    isSure: z.nullable(z.boolean()),
  })
  .check(
    z.refine(({ low, value, high }) => low <= value && value <= high, { params: { code: 'value-outside-interval' } }),
  );

const entryFields = {
  id,
  poolId: id,
  /** Rises by one with every change: decides which of two copies is the later, whatever the clocks said. */
  revision,
  edited: time,
  /** When it happened. */
  time,
  /** Local time minus UTC. */
  zoneMinutes: whole(-900, 900),
  note: text(2000),
};

export const readingEntrySchema = z.object({
  ...entryFields,
  kind: z.literal('reading'),
  origin: z.enum(['photo', 'typed']),
  /** A quantity measured in two ways is here twice: see `countingValues`. */
  values: z.array(loggedValueSchema).check(z.maxLength(40)),
  /** Pads whose colour was near no part of the scale. */
  unmatched: z.array(z.enum(PAD_QUANTITIES)).check(z.maxLength(12)),
  /** That the photo was read with. */
  scale: z.nullable(z.extend(usedScaleSchema, { id: text(64), name })),
  correction: z.nullable(z.enum(['neutrals', 'anchors'])),
  /** From the end of the dip to the photo. */
  sinceDipSeconds: z.nullable(number(0, 86_400)),
  /** Codes of the warnings shown with the reading. */
  warnings: z.array(z.string().check(z.regex(/^[a-z][a-z-]{0,39}$/))).check(z.maxLength(20)),
  quality: z.nullable(
    z.object({
      neutralResidual: number(0, 1000),
      shadingPercent: number(-1000, 1000),
      marksResidualMm: number(0, 1000),
    }),
  ),
  pictureId: z.nullable(id),
});

export const AGENTS = [
  'chlorine',
  'acid',
  'base',
  'bicarbonate',
  'calcium',
  'stabilizer',
  'salt',
  'chlorine-remover',
  'water',
  'other',
] as const;

export const AMOUNT_UNITS = ['mL', 'L', 'g', 'kg', 'fl oz', 'gal', 'oz', 'lb'] as const;

export const additionEntrySchema = z.object({
  ...entryFields,
  kind: z.literal('addition'),
  origin: z.enum(['planned', 'typed']),
  product: name,
  /** What it does to the water. */
  agent: z.enum(AGENTS),
  amount: z.number().check(z.positive(), z.maximum(10_000_000)),
  unit: z.enum(AMOUNT_UNITS),
  /** As `core/water/products` knows it; null for other things, and for what was written before it was kept. */
  productId: z.nullable(z.string().check(z.regex(/^[a-z][a-z-]{0,40}$/))),
  /** Per cent on its label's own basis; null for the usual one. */
  strength: z.nullable(number(0, 1000)),
  /** Available chlorine in it, as Cl2; null where unknown. */
  chlorineGrams: z.nullable(number(0, 10_000_000)),
  /** Strong acid in it; null where unknown. */
  acidMoles: z.nullable(number(0, 1_000_000)),
});

export const noteEntrySchema = z.object({ ...entryFields, kind: z.literal('note') });

export const SKIES = ['clear', 'some-cloud', 'overcast', 'rain', 'storm'] as const;

export const weatherEntrySchema = z.object({
  ...entryFields,
  kind: z.literal('weather'),
  airTemperatureC: z.nullable(number(-60, 60)),
  sky: z.nullable(z.enum(SKIES)),
  rainMm: z.nullable(number(0, 2000)),
  bathers: z.nullable(whole(0, 10_000)),
});

/** One part of a step, as it was done. */
const doneSchema = z.object({
  /** The step's id in the round's plan, and which of its parts, counted from 1. */
  step: z.string().check(z.regex(/^[a-z][a-z0-9-]{0,60}$/)),
  part: whole(1, 1000),
  time,
  /** The entry that was written with it. */
  entryId: id,
  /** mL, g, or L of water: as planned, and as it was; null for what has no amount. */
  planned: z.nullable(number(0, 100_000_000)),
  amount: z.nullable(number(0, 100_000_000)),
});

/** A plan's input as JSON, checked by whoever makes the plan: here only that a file can carry it. */
const planInput = z
  .record(z.string(), z.unknown())
  .check(z.refine((input) => JSON.stringify(input).length <= 40_000, { params: { code: 'too-long' } }));

export const ROUND_REASONS = ['made', 'amount', 'reading', 'form'] as const;

/** What the steps are worked out from, and which of them are done. */
const planRoundSchema = z.object({
  time,
  /** Why: to begin with, as another amount went in than was planned, from a new reading, or as the form was put right. */
  because: z.enum(ROUND_REASONS),
  input: planInput,
  done: z.array(doneSchema).check(z.maxLength(200)),
});

export const planEntrySchema = z.object({
  ...entryFields,
  kind: z.literal('plan'),
  /** That it was made from; null where that isn't in the logbook. */
  readingId: z.nullable(id),
  /** The last one counts; what was done in those before it stays done. */
  rounds: z.array(planRoundSchema).check(z.minLength(1), z.maxLength(50)),
  /** What comes next and from when on, for those who don't work out the plan; null when all is done. */
  next: z.nullable(
    z.object({
      /** A kind of step, or 'test'. */
      kind: z.string().check(z.regex(/^[a-z][a-z-]{0,40}$/)),
      from: z.nullable(time),
      /** What is to be tested. */
      quantity: z.optional(z.enum(QUANTITY_IDS)),
    }),
  ),
  /** When it was put away unfinished. */
  closed: z.nullable(time),
});

export const entrySchema = z.discriminatedUnion('kind', [
  readingEntrySchema,
  additionEntrySchema,
  noteEntrySchema,
  weatherEntrySchema,
  planEntrySchema,
]);

export const poolSchema = z.object({
  id,
  name,
  revision,
  edited: time,
  volumeLitres: z.nullable(z.number().check(z.positive(), z.maximum(100_000_000))),
  /** What a salt chlorinator makes in a day, where only that was told; null without one, or where unknown. */
  chlorinatorGramsPerDay: z.nullable(number(0, 1_000_000)),
  /** All else that the plan asks of a pool, by its place in the plan's input; metric. What isn't known isn't there. */
  details: z.record(
    z.string().check(z.regex(/^(pool|fill)(\.[A-Za-z][A-Za-z0-9-]{0,40}){1,3}$/)),
    z.union([z.number(), z.string().check(z.regex(/^[a-z][a-z0-9-]{0,40}$/))]),
  ),
});

export type Entry = z.output<typeof entrySchema>;
export type EntryKind = Entry['kind'];
export type ReadingEntry = z.output<typeof readingEntrySchema>;
export type LoggedValue = z.output<typeof loggedValueSchema>;
export type AdditionEntry = z.output<typeof additionEntrySchema>;
export type WeatherEntry = z.output<typeof weatherEntrySchema>;
export type PlanEntry = z.output<typeof planEntrySchema>;
export type PlanRound = PlanEntry['rounds'][number];
export type Done = PlanRound['done'][number];
export type Agent = (typeof AGENTS)[number];
export type AmountUnit = (typeof AMOUNT_UNITS)[number];
export type Sky = (typeof SKIES)[number];
export type Pool = z.output<typeof poolSchema>;

/** The words of a logbook, without its pictures. */
export interface LogData {
  readonly pools: readonly Pool[];
  readonly entries: readonly Entry[];
}

/** The newest first; equal times in the order of their ids, so that it is the same everywhere. */
export function newestFirst(a: Entry, b: Entry): number {
  if (a.time !== b.time) return a.time < b.time ? 1 : -1;
  return a.id < b.id ? 1 : a.id > b.id ? -1 : 0;
}

/** The values that count: what another test gave goes before the photo's. */
export function countingValues({ values }: Pick<ReadingEntry, 'values'>): LoggedValue[] {
  const others = new Set(values.filter(({ method }) => method !== 'photo').map(({ quantity }) => quantity));
  return values.filter(({ method, quantity }) => method !== 'photo' || !others.has(quantity));
}

/** A measurement as an entry has it. */
export function toLogged(
  { scale: _scale, time: _time, ...value }: Measurement,
  { word, otherWord, isSure }: Pick<LoggedValue, 'word' | 'otherWord' | 'isSure'>,
): LoggedValue {
  return { ...value, word, otherWord, isSure };
}

/** A measurement out of an entry: what `toLogged` put in, with the entry's time and scale. */
export function fromLogged(
  { scale, time }: Pick<ReadingEntry, 'scale' | 'time'>,
  { word: _word, otherWord: _other, isSure: _sure, ...value }: LoggedValue,
): Measurement {
  return { ...value, scale: value.method === 'photo' ? scale : null, time };
}

/** What an entry is where values were typed: nothing that only a photo has. */
export function typedFields(values: LoggedValue[]) {
  return {
    kind: 'reading',
    origin: 'typed',
    values,
    unmatched: [],
    scale: null,
    correction: null,
    sinceDipSeconds: null,
    warnings: [],
    quality: null,
    pictureId: null,
  } satisfies Partial<ReadingEntry>;
}

export const NOTHING_SAID = { word: null, otherWord: null, isSure: null } as const;
