/**
 * What the plan is made from: the pool, the readings, what is on the shelf. Every input goes through `parsePlanInput`.
 * Metric throughout: litres, °C, mg/L (alkalinity and hardness as CaCO3, boron as B). Blank means unknown.
 */
import * as z from 'zod';
import { estimateSchema, OFF_SCALE, usedScaleSchema } from '../measurement/measurement.ts';
import { METHODS } from '../measurement/methods.ts';
import { QUANTITIES, QUANTITY_IDS, type QuantityId } from '../measurement/quantities.ts';
import { CLIMATE_BOUNDS, type ClimateQuantity, MONTHS } from './climate.ts';
import { PRODUCT_IDS, product, type ProductId } from '../water/products.ts';
import { CHLORINATIONS, SURFACES, targetsSchema } from '../water/targets.ts';

function fault(context: z.RefinementCtx, found: InputFault, path: string[] = []): void {
  context.addIssue({ code: 'custom', path, params: { fault: found } });
}

function bounded(id: QuantityId) {
  const { min, max } = QUANTITIES[id];
  return z.number().min(min).max(max);
}

/** Of a span: wider than any pool. */
const end = () => z.number().min(-5).max(100_000);

/** A measurement of which all but the value may be left out. */
function reading(id: QuantityId) {
  return z
    .strictObject({
      quantity: z.literal(id).optional(),
      value: bounded(id),
      low: end().optional(),
      high: end().optional(),
      alternative: z.optional(z.nullable(estimateSchema)),
      offScale: z.enum(OFF_SCALE).nullable().optional(),
      openBelow: z.boolean().optional(),
      openAbove: z.boolean().optional(),
      method: z.enum(METHODS).optional(),
      scale: z.optional(z.nullable(usedScaleSchema)),
      time: z.iso.datetime().optional(),
    })
    .superRefine(({ value, low = value, high = value }, context) => {
      if (low > value || high < value) fault(context, { code: 'span-without-value', low, value, high });
    });
}

export type Measured = z.output<ReturnType<typeof reading>>;

export const readingsSchema = z
  .strictObject({
    'free-chlorine': reading('free-chlorine'),
    'total-chlorine': reading('total-chlorine'),
    ph: reading('ph'),
    'total-alkalinity': reading('total-alkalinity'),
    'total-hardness': reading('total-hardness'),
    'calcium-hardness': reading('calcium-hardness'),
    'cyanuric-acid': reading('cyanuric-acid'),
    salt: reading('salt'),
    boron: reading('boron'),
    temperature: reading('temperature'),
  })
  .partial();

function monthly(quantity: ClimateQuantity) {
  const { min, max } = CLIMATE_BOUNDS[quantity];
  return z.number().min(min).max(max).optional();
}

const positive = (max: number) => z.number().positive().max(max);

/** From a barrel to an Olympic pool, L. */
const LARGEST_POOL_LITRES = 4_000_000;
const litres = () => positive(LARGEST_POOL_LITRES).min(100);

export const HEATERS = ['none', 'copper', 'other', 'collector'] as const;
export const FILTERS = ['sand', 'cartridge'] as const;

export const poolSchema = z
  .strictObject({
    name: z.string().trim().max(80).default(''),
    /** A spa has its own targets. Blank: told by its size and warmth. */
    kind: z.enum(['pool', 'spa']).optional(),
    volumeLitres: litres(),
    /** The span the volume may lie in, where it was measured. */
    volumeLowLitres: litres().optional(),
    volumeHighLitres: litres().optional(),
    /** Lets water to replace be given as centimetres of level. */
    surfaceM2: positive(5000).min(0.1).optional(),
    surface: z.enum(SURFACES),
    /** What the heater's water side is made of; a solar collector's is plastic. */
    heater: z.enum(HEATERS),
    heat: z
      .strictObject({
        kilowatts: positive(500).min(0.1),
        targetC: z.number().min(5).max(40),
        /** Of a solar collector. */
        collectorM2: positive(2000).min(0.1),
        /** By how much water comes back warmer from heater or collector. */
        riseC: positive(40).min(0.1),
      })
      .partial()
      .optional(),
    filter: z
      .strictObject({
        kind: z.enum(FILTERS),
        /** Its gauge just after cleaning, and now. */
        cleanBar: positive(10).min(0.01).optional(),
        nowBar: z.number().min(0).max(10).optional(),
      })
      .optional(),
    /** Whether pipes can freeze where the pool lies. Blank: they can. */
    winter: z.enum(['frost', 'mild']).optional(),
    /** Means of the place by months. */
    climate: z
      .partialRecord(z.enum(MONTHS), z.strictObject({ airC: monthly('airC'), rainMm: monthly('rainMm') }))
      .optional(),
    chlorination: z.enum(CHLORINATIONS),
    stabilised: z.boolean(),
    exposure: z.enum(['sun', 'covered']).default('sun'),
    /** How much of the time a cover lies on an open pool. */
    cover: z.enum(['none', 'nights', 'mostly']).optional(),
    pump: z
      .strictObject({
        litresPerHour: positive(500_000).min(1),
        basis: z.enum(['measured', 'rated']).default('rated'),
        /** What its timer is set to. */
        hoursPerDay: positive(24).optional(),
      })
      .optional(),
    cell: z
      .strictObject({
        gramsPerHour: positive(2000).min(0.1),
        setting: z.number().gt(0).min(0.01).max(1).default(1),
        amperes: positive(500).min(0.01).optional(),
        gaps: positive(100).min(1).optional(),
      })
      .optional(),
  })
  .superRefine(({ volumeLitres: value, volumeLowLitres: low = value, volumeHighLitres: high = value }, context) => {
    if (low > value || high < value) {
      fault(context, { code: 'span-without-value', low, value, high }, ['volumeLitres']);
    }
  });

/** Per cent: of anything weaker nobody could add enough. */
const MIN_STRENGTH = 0.01;

export const shelfItemSchema = z
  .strictObject({
    product: z.enum(PRODUCT_IDS),
    /** Per cent, on the basis the product's label uses; blank: the usual strength is assumed. */
    strength: z.number().optional(),
    /**
     * What the per cent of liquid chlorine count: sodium hypochlorite by weight, as labels in the US say (40 CFR
     * 156.10(g)), or grams of available chlorine in 100 mL. Blank: by volume.
     */
    basis: z.enum(['by-weight', 'by-volume']).optional(),
    /** Since it was made or bought; liquid chlorine gets weaker. */
    ageMonths: z.number().min(0).max(60).optional(),
    /** Of what its label says, as the logbook has learnt it; goes before what its age would leave. */
    learntShare: z.number().min(0.5).max(1.5).optional(),
    /** Where it stands, °C. */
    storedAtC: z.number().min(-10).max(50).optional(),
    /** In the owner's own money, for one litre or one kilogram. */
    price: positive(10_000).optional(),
  })
  .superRefine((item, context) => {
    const { maxStrength } = product(item.product);
    const { strength = maxStrength } = item;
    if (strength >= MIN_STRENGTH && strength <= maxStrength) return;
    fault(context, { code: 'no-such-strength', product: item.product, given: strength, limit: maxStrength }, [
      'strength',
    ]);
  });
export type ShelfItem = z.output<typeof shelfItemSchema>;

/** What comes out of the hose. */
export const fillWaterSchema = z
  .strictObject({
    ph: bounded('ph'),
    'total-alkalinity': bounded('total-alkalinity'),
    'calcium-hardness': bounded('calcium-hardness'),
    'cyanuric-acid': bounded('cyanuric-acid'),
    salt: bounded('salt'),
  })
  .partial();
export type FillWater = z.output<typeof fillWaterSchema>;

/** Two readings of free chlorine with nothing added in between. */
const lossSchema = z.strictObject({
  before: reading('free-chlorine'),
  after: reading('free-chlorine'),
  hours: positive(72).min(1),
  night: z.boolean(),
});

/** A day's use as the logbook has learnt it, with its 90 % interval. */
const learntUseSchema = z
  .strictObject({
    value: z.number().min(0).max(100),
    low: z.number().min(0),
    high: z.number().max(100),
  })
  .superRefine(({ value, low, high }, context) => {
    if (low > value || high < value) fault(context, { code: 'span-without-value', low, value, high });
  });

export const STAINS = ['none', 'brown', 'blue-green', 'black'] as const;

export const planInputSchema = z.strictObject({
  pool: poolSchema,
  readings: readingsSchema,
  look: z
    .strictObject({
      water: z.enum(['clear', 'cloudy', 'green']),
      /** Can the deepest part of the floor be seen clearly? */
      bottomVisible: z.boolean(),
      /** Are the strip's other pads pale, as if bleached? */
      padsPale: z.boolean(),
      /** Marks on walls and floor, by their colour. */
      stains: z.enum(STAINS),
    })
    .partial()
    .default({}),
  shelf: z.array(shelfItemSchema).max(40).default([]),
  fill: fillWaterSchema.default({}),
  chlorineLoss: lossSchema.optional(),
  /** In which it is made, for the place's climate. */
  month: z.enum(MONTHS).optional(),
  /** Goes behind a loss that was measured. */
  chlorineUse: learntUseSchema.optional(),
  /** Hours until a test may be due, where the logbook's estimate of the water says so before the rule does. */
  testHours: z.partialRecord(z.enum(QUANTITY_IDS), z.number().min(0).max(2000)).optional(),
  targets: targetsSchema.default({}),
});
export type PlanInput = z.output<typeof planInputSchema>;

/** What can be wrong with one place of the input; `words` has the sentences. */
export type InputFault =
  | { readonly code: 'missing' | 'not-a-number' | 'not-rising' }
  | { readonly code: 'wrong-kind'; readonly expected: string }
  /** `limit`: the least or the most that is taken, metric; where `isOpen`, only beyond it. */
  | { readonly code: 'too-low' | 'too-high'; readonly given: number; readonly limit: number; readonly isOpen: boolean }
  | { readonly code: 'too-long'; readonly limit: number }
  | { readonly code: 'not-one-of'; readonly options: readonly string[] }
  | { readonly code: 'not-known'; readonly keys: readonly string[] }
  | { readonly code: 'span-without-value'; readonly low: number; readonly value: number; readonly high: number }
  | { readonly code: 'no-such-strength'; readonly product: ProductId; readonly given: number; readonly limit: number };

/** One thing wrong, and its place in the input. */
export type InputIssue = InputFault & { readonly path: readonly (string | number)[] };

export type ParsedPlanInput = { ok: true; input: PlanInput } | { ok: false; issues: InputIssue[] };

/** Checks anything that claims to be the input of a plan. */
export function parsePlanInput(input: unknown): ParsedPlanInput {
  const result = planInputSchema.safeParse(input, { reportInput: true });
  if (result.success) return { ok: true, input: result.data };
  return {
    ok: false,
    issues: result.error.issues.map((issue) => ({ ...faultOf(issue), path: issue.path as (string | number)[] })),
  };
}

function faultOf(issue: z.core.$ZodIssue): InputFault {
  const given = typeof issue.input === 'number' ? issue.input : NaN;
  switch (issue.code) {
    case 'invalid_type':
      if (issue.input === undefined) return { code: 'missing' };
      return issue.expected === 'number' ? { code: 'not-a-number' } : { code: 'wrong-kind', expected: issue.expected };
    case 'too_small':
      return { code: 'too-low', given, limit: Number(issue.minimum), isOpen: issue.inclusive === false };
    case 'too_big':
      if (issue.origin !== 'number') return { code: 'too-long', limit: Number(issue.maximum) };
      return { code: 'too-high', given, limit: Number(issue.maximum), isOpen: issue.inclusive === false };
    case 'invalid_value':
      return { code: 'not-one-of', options: issue.values.map(String) };
    case 'unrecognized_keys':
      return { code: 'not-known', keys: issue.keys };
    case 'custom':
      // Own targets are the only ones that say nothing more.
      return (issue.params?.['fault'] as InputFault | undefined) ?? { code: 'not-rising' };
    default:
      return { code: 'wrong-kind', expected: '' };
  }
}
