/** Inputs of plans for tests: a plain one to change, and random ones. */
import fc from 'fast-check';
import type { QuantityId } from '../../../../src/core/measurement/quantities.ts';
import type { PlanInput } from '../../../../src/core/pool/schema.ts';
import { parsePlanInput } from '../../../../src/core/pool/schema.ts';
import { makePlan } from '../../../../src/core/water/plan/make-plan.ts';
import type { Step, StepKind } from '../../../../src/core/water/plan/step.ts';
import type { Plan } from '../../../../src/core/water/plan/types.ts';
import { CHLORINATIONS, SURFACES } from '../../../../src/core/water/targets.ts';

type Loose = Record<string, unknown>;

export const reading = (value: number, by = 0) => ({ value, low: Math.max(0, value - by), high: value + by });

/** A vinyl pool of 40 m3 on liquid chlorine, all in range, everything on the shelf. */
export function plain(
  change: { pool?: Loose; readings?: Loose; without?: QuantityId[]; shelf?: unknown; [other: string]: unknown } = {},
): Loose {
  const { pool, readings, without, ...rest } = change;
  const all: Loose = {
    'free-chlorine': reading(4, 0.2),
    'total-chlorine': reading(4, 0.2),
    ph: reading(7.5, 0.05),
    'total-alkalinity': reading(80, 5),
    'calcium-hardness': reading(250, 10),
    'cyanuric-acid': reading(40, 5),
    salt: reading(1200, 100),
    temperature: reading(26, 1),
    ...readings,
  };
  const kept = Object.entries(all).filter(([id]) => !without?.includes(id as QuantityId));
  return {
    pool: {
      volumeLitres: 40_000,
      surface: 'vinyl',
      heater: 'none',
      chlorination: 'hypochlorite',
      stabilised: true,
      ...pool,
    },
    readings: Object.fromEntries(kept),
    look: { water: 'clear', bottomVisible: true },
    shelf: [
      { product: 'hydrochloric-acid', strength: 31.45 },
      { product: 'sodium-bicarbonate' },
      { product: 'soda-ash' },
      { product: 'sodium-hypochlorite', strength: 12.5 },
      { product: 'calcium-chloride', strength: 77 },
      { product: 'salt' },
      { product: 'cyanuric-acid' },
    ],
    ...rest,
  };
}

export function parsed(input: unknown): PlanInput {
  const result = parsePlanInput(input);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.input;
}

export function plan(input: unknown): Plan {
  const made = makePlan(parsed(input));
  if (!made.ok) throw new Error(JSON.stringify(made.issues));
  return made.plan;
}

export const kinds = (made: Plan): StepKind[] => made.steps.map(({ kind }) => kind);

export function step(made: Plan, kind: StepKind): Step {
  const found = made.steps.find((one) => one.kind === kind);
  if (!found) throw new Error(`no ${kind} in ${kinds(made).join(', ')}`);
  return found;
}

/** A thousand even steps: plain doubles come out as the tiniest numbers far too often. */
const between = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1000 }).map((step) => min + ((max - min) * step) / 1000);

const spanned = (min: number, max: number, most: number) =>
  fc
    .tuple(between(min, max), between(0, most), between(0, most))
    .map(([value, below, above]) => ({ value, low: Math.max(min, value - below), high: Math.min(max, value + above) }));

const SHELF = [
  'hydrochloric-acid',
  'sodium-bisulfate',
  'sodium-bicarbonate',
  'soda-ash',
  'borax',
  'calcium-chloride',
  'salt',
  'cyanuric-acid',
  'sodium-hypochlorite',
  'household-bleach',
  'calcium-hypochlorite',
  'dichlor',
  'trichlor',
  'sodium-thiosulfate',
] as const;

/** Pools of every kind with readings from fine to dreadful, some of them missing. */
export const anyInput: fc.Arbitrary<PlanInput> = fc
  .record({
    pool: fc.record({
      volumeLitres: between(2000, 120_000),
      surface: fc.constantFrom(...SURFACES),
      heater: fc.constantFrom('none', 'copper', 'other'),
      chlorination: fc.constantFrom(...CHLORINATIONS),
      stabilised: fc.boolean(),
      exposure: fc.constantFrom('sun', 'covered'),
    }),
    spread: fc.tuple(between(0.85, 1), between(1, 1.15)),
    cell: fc.option(fc.record({ gramsPerHour: between(5, 40) })),
    readings: fc.record({
      'free-chlorine': spanned(0, 14, 1),
      'total-chlorine': fc.constant(null),
      ph: spanned(6.6, 8.6, 0.25),
      'total-alkalinity': spanned(25, 260, 20),
      'calcium-hardness': spanned(20, 1050, 40),
      'cyanuric-acid': spanned(0, 120, 15),
      salt: spanned(50, 4900, 200),
      temperature: spanned(10, 36, 2),
    }),
    combined: fc.option(spanned(0, 2, 0.3)),
    missing: fc.subarray(['cyanuric-acid', 'salt', 'temperature', 'calcium-hardness', 'total-alkalinity', 'ph']),
    drop: fc.boolean(),
    fill: fc.option(
      fc.record({
        ph: between(7, 8.4),
        'total-alkalinity': between(20, 250),
        'calcium-hardness': between(10, 400),
        salt: between(0, 200),
        'cyanuric-acid': fc.constant(0),
      }),
    ),
    green: fc.boolean(),
    shelf: fc.subarray([...SHELF]),
  })
  .map(({ pool, spread, cell, readings, combined, missing, drop, fill, green, shelf }) => {
    const free = readings['free-chlorine'];
    const total = combined && {
      value: free.value + combined.value,
      low: free.low + combined.low,
      high: free.high + combined.high,
    };
    const kept = Object.entries({ ...readings, 'total-chlorine': total }).filter(
      ([id, value]) => value !== null && !(drop && missing.includes(id as never)),
    );
    return parsed({
      pool: {
        ...pool,
        volumeLowLitres: pool.volumeLitres * spread[0],
        volumeHighLitres: pool.volumeLitres * spread[1],
        ...(cell && { cell }),
      },
      readings: Object.fromEntries(kept),
      look: green ? { water: 'green', bottomVisible: false } : {},
      shelf: shelf.map((product) => ({ product })),
      ...(fill && { fill }),
    });
  });

export const planned = (input: PlanInput): Plan | null => {
  const made = makePlan(input);
  return made.ok ? made.plan : null;
};
