/** Entries of any kind, as the schema allows them. */
import fc from 'fast-check';
import {
  AGENTS,
  AMOUNT_UNITS,
  type Entry,
  type LoggedValue,
  type Pool,
  ROUND_REASONS,
  SKIES,
} from '../../../src/core/log/schema.ts';
import type { Choice } from '../../../src/core/log/choices.ts';
import { isCleanText } from '../../../src/core/text.ts';
import { METHODS } from '../../../src/core/measurement/methods.ts';
import { PAD_QUANTITIES, QUANTITY_IDS } from '../../../src/core/measurement/quantities.ts';
import { EYES, THEMES, UNIT_SYSTEMS } from '../../../src/core/settings.ts';

const hex = fc.constantFrom(...'0123456789abcdef');
export const id = fc.string({ unit: hex, minLength: 8, maxLength: 8 });

/** Text with all that files and pages may stumble over. */
const awkward = fc.constantFrom(
  '=1+2";=1+2',
  '=1+2\'" ;,=1+2',
  "'=quoted",
  '-3',
  '@home',
  '+41',
  ' =late',
  "'",
  "''",
  'a,b;c"d',
  'two\nlines',
  '\n',
  ' padded ',
  '"',
  '<img src=x onerror=alert(1)>',
  '\\n\\;',
  '水深 1.2 m 🏊',
  'NULL',
  '\u202egnp.exe',
);
const text = (maxLength: number) =>
  fc
    .oneof(
      awkward,
      fc.string({ unit: 'grapheme', maxLength }).map((value) => value.slice(0, maxLength)),
    )
    .filter(isCleanText);
const name = text(60).filter((value) => value.trim() !== '');
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((value) => value + 0);
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null });
const time = fc
  .date({ min: new Date('2020-01-01T00:00:00Z'), max: new Date('2034-12-31T00:00:00Z'), noInvalidDate: true })
  .map((date) => date.toISOString());

const estimate = fc
  .tuple(number(0, 5000), number(0, 5000), number(0, 5000))
  .map((values) => [...values].sort((a, b) => a - b))
  .map(([low, value, high]) => ({ low: low!, value: value!, high: high! }));

const word = fc.constantFrom('low', 'in-range', 'high', 'off-scale');

/** Anything that can be measured, in any way and with any doubt. */
export const loggedValue: fc.Arbitrary<LoggedValue> = fc
  .record({
    quantity: fc.constantFrom(...QUANTITY_IDS),
    found: estimate,
    alternative: maybe(estimate),
    offScale: maybe(fc.constantFrom('below' as const, 'above' as const)),
    openAbove: fc.boolean(),
    openBelow: fc.boolean(),
    method: fc.constantFrom(...METHODS),
    word: maybe(word),
    otherWord: maybe(word),
    isSure: maybe(fc.boolean()),
  })
  .map(({ found, ...rest }) => ({ ...rest, ...found }));

export const pool: fc.Arbitrary<Pool> = fc.record({
  id,
  name,
  revision: fc.integer({ min: 1, max: 5 }),
  edited: time,
  volumeLitres: maybe(number(100, 1_000_000)),
  chlorinatorGramsPerDay: maybe(number(0, 5000)),
  details: fc.dictionary(
    fc.constantFrom(
      'pool.surface',
      'pool.cover',
      'pool.climate.jun.airC',
      'pool.cell.gramsPerHour',
      'pool.pump.hoursPerDay',
      'fill.calcium-hardness',
    ),
    // JSON has no -0.
    fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => value + 0),
      fc.constantFrom('vinyl', 'nights', 'a-1'),
    ),
  ),
});

const common = (poolIds: fc.Arbitrary<string>) => ({
  id,
  poolId: poolIds,
  revision: fc.integer({ min: 1, max: 5 }),
  edited: time,
  time,
  zoneMinutes: fc.integer({ min: -56, max: 60 }).map((quarters) => quarters * 15),
  note: text(200),
});

const done = fc.record({
  step: fc.constantFrom('lower-ph', 'salt', 'lower-ph-round-2'),
  part: fc.integer({ min: 1, max: 4 }),
  time,
  entryId: id,
  planned: maybe(number(0, 50_000)),
  amount: maybe(number(0, 50_000)),
});

/** What a file can carry: more than any plan takes. */
const planInput = fc
  .dictionary(fc.string({ maxLength: 12 }), fc.jsonValue({ maxDepth: 3 }), { maxKeys: 4, noNullPrototype: true })
  .map((input) => JSON.parse(JSON.stringify(input)) as Record<string, unknown>);

export const plan = (poolIds: fc.Arbitrary<string>) =>
  fc.record({
    ...common(poolIds),
    kind: fc.constant('plan' as const),
    readingId: maybe(id),
    rounds: fc.array(
      fc.record({
        time,
        because: fc.constantFrom(...ROUND_REASONS),
        input: planInput,
        done: fc.array(done, { maxLength: 3 }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    next: maybe(
      fc.oneof(
        fc.record({ kind: fc.constant('lower-ph'), from: maybe(time) }),
        fc.record({ kind: fc.constant('test'), from: maybe(time), quantity: fc.constantFrom(...QUANTITY_IDS) }),
      ),
    ),
    closed: maybe(time),
  });

export function entry(poolIds: fc.Arbitrary<string>): fc.Arbitrary<Entry> {
  return fc.oneof(
    fc.record({
      ...common(poolIds),
      kind: fc.constant('reading' as const),
      origin: fc.constantFrom('photo' as const, 'typed' as const),
      values: fc.array(loggedValue, { maxLength: 5 }),
      unmatched: fc.uniqueArray(fc.constantFrom(...PAD_QUANTITIES), { maxLength: 3 }),
      scale: maybe(
        fc.record({ id: text(20), name, origin: maybe(fc.constantFrom('practice' as const, 'taught' as const)) }),
      ),
      correction: maybe(fc.constantFrom('neutrals' as const, 'anchors' as const)),
      sinceDipSeconds: maybe(number(0, 600)),
      warnings: fc.array(fc.constantFrom('uneven-light', 'poor-fit', 'from-a-later-day'), { maxLength: 3 }),
      quality: maybe(
        fc.record({
          neutralResidual: number(0, 10),
          shadingPercent: number(-50, 50),
          marksResidualMm: number(0, 3),
        }),
      ),
      pictureId: maybe(id),
    }),
    fc.record({
      ...common(poolIds),
      kind: fc.constant('addition' as const),
      origin: fc.constantFrom('planned' as const, 'typed' as const),
      product: name,
      agent: fc.constantFrom(...AGENTS),
      amount: number(0.001, 100_000),
      unit: fc.constantFrom(...AMOUNT_UNITS),
      productId: maybe(fc.constantFrom('salt', 'soda-ash', 'hydrochloric-acid')),
      strength: maybe(number(0.01, 100)),
      chlorineGrams: maybe(number(0, 10_000)),
      acidMoles: maybe(number(0, 1000)),
    }),
    fc.record({ ...common(poolIds), kind: fc.constant('note' as const) }),
    fc.record({
      ...common(poolIds),
      kind: fc.constant('weather' as const),
      airTemperatureC: maybe(number(-40, 50)),
      sky: maybe(fc.constantFrom(...SKIES)),
      rainMm: maybe(number(0, 300)),
      bathers: maybe(fc.integer({ min: 0, max: 30 })),
    }),
    plan(poolIds),
  );
}

const uniqueById = <T extends { readonly id: string }>(items: fc.Arbitrary<T>, maxLength: number) =>
  fc.uniqueArray(items, { maxLength, selector: (item) => item.id });

/** A logbook whose entries all belong to one of its pools. */
export const log = uniqueById(pool, 3)
  .filter((pools) => pools.length > 0)
  .chain((pools) =>
    fc.record({
      pools: fc.constant(pools),
      entries: uniqueById(entry(fc.constantFrom(...pools.map((each) => each.id))), 12),
    }),
  );

const strength = text(20).map((value) => value.slice(0, 20));
const word40 = fc.stringMatching(/^[a-z][a-z0-9-]{0,20}$/);
const field = fc
  .record({
    key: fc.constantFrom(
      'plan.pool.volumeLitres',
      'plan.pool.surface',
      'plan.pool.cell.setting',
      'plan.fill.salt',
      'plan.targets.ph.low',
      'plan.targets.free-chlorine.aim',
    ),
    value: fc.oneof(number(-10, 1_000_000), text(30)),
  })
  .map((choice): Choice => choice);
const setting = fc.oneof(
  fc.record({ key: fc.constant('settings.units' as const), value: fc.constantFrom(...UNIT_SYSTEMS) }),
  fc.record({ key: fc.constant('settings.eyes' as const), value: fc.constantFrom(...EYES) }),
  fc.record({ key: fc.constant('settings.sound' as const), value: fc.constantFrom('on' as const, 'off' as const) }),
  fc.record({ key: fc.constant('settings.theme' as const), value: fc.constantFrom(...THEMES) }),
  fc.record({ key: fc.constantFrom('settings.scale' as const, 'settings.pool' as const), value: text(40) }),
  fc.record({
    key: fc.constant('plan.shelf' as const),
    value: fc.dictionary(word40, strength, { maxKeys: 4, noNullPrototype: true }),
  }),
  fc.record({
    key: fc.constant('plan.spans' as const),
    value: fc
      .dictionary(fc.constantFrom(...PAD_QUANTITIES), estimate, { noNullPrototype: true })
      .map((spans) => Object.fromEntries(Object.entries(spans).map(([id, { low, high }]) => [id, { low, high }]))),
  }),
) as fc.Arbitrary<Choice>;

/** Each thing chosen at most once, as it is kept. */
export const choices: fc.Arbitrary<Choice[]> = fc.uniqueArray(fc.oneof(field, setting), {
  maxLength: 12,
  selector: ({ key }) => key,
});
