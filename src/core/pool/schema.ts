/**
 * What the plan is made from: the pool, the readings, what is on the shelf. Every input goes through `parsePlanInput`.
 * Metric throughout: litres, °C, mg/L (alkalinity and hardness as CaCO3, boron as B). Blank means unknown.
 */
import * as z from 'zod';
import { estimateSchema, OFF_SCALE, usedScaleSchema } from '../measurement/measurement.ts';
import { METHODS } from '../measurement/methods.ts';
import { QUANTITIES, type QuantityId } from '../measurement/quantities.ts';
import { PRODUCT_IDS, product } from '../water/products.ts';
import { CHLORINATIONS, SURFACES, targetsSchema } from '../water/targets.ts';

/** As the sentences below name them. */
const NAMES: Readonly<Record<QuantityId, string>> = {
  'free-chlorine': 'free chlorine',
  'total-chlorine': 'total chlorine',
  ph: 'pH',
  'total-alkalinity': 'total alkalinity',
  'total-hardness': 'total hardness',
  'calcium-hardness': 'calcium hardness',
  'cyanuric-acid': 'cyanuric acid',
  salt: 'salt',
  boron: 'boron',
  temperature: 'the temperature',
};

function bounded(id: QuantityId) {
  const name = NAMES[id];
  const { min, max } = QUANTITIES[id];
  const unit = id === 'ph' ? '' : ` ${QUANTITIES[id].unit}`;
  const outside = ({ input }: { input?: unknown }) =>
    `${name} can't be ${String(input)}${unit}: it must lie between ${min} and ${max}${unit}`;
  return z
    .number({ error: `${name} must be a number` })
    .min(min, { error: outside })
    .max(max, { error: outside });
}

/** The usual slip with temperatures is the other scale, so it is named. */
function temperature() {
  const { min, max } = QUANTITIES.temperature;
  return z.number({ error: 'the temperature must be a number' }).superRefine((value, context) => {
    if (value >= min && value <= max) return;
    const celsius = Math.round((value - 32) / 1.8);
    const slip = value > max && celsius <= max ? `: ${value} °F would be ${celsius} °C, was it in Fahrenheit?` : '';
    context.addIssue({
      code: 'custom',
      message: `${value} °C can't be a pool${slip || `: it must lie between ${min} and ${max} °C`}`,
    });
  });
}

/** A measurement of which all but the value may be left out. */
function measured(id: QuantityId, number: z.ZodType<number>) {
  return z
    .strictObject({
      quantity: z.literal(id).optional(),
      value: number,
      low: number.optional(),
      high: number.optional(),
      alternative: z.optional(z.nullable(estimateSchema)),
      offScale: z.enum(OFF_SCALE).nullable().optional(),
      openBelow: z.boolean().optional(),
      openAbove: z.boolean().optional(),
      method: z.enum(METHODS).optional(),
      scale: z.optional(z.nullable(usedScaleSchema)),
      time: z.iso.datetime().optional(),
    })
    .superRefine(({ value, low, high }, context) => {
      if ((low !== undefined && low > value) || (high !== undefined && high < value)) {
        context.addIssue({
          code: 'custom',
          message: `the span from ${low ?? value} to ${high ?? value} must hold the value ${value}`,
        });
      }
    });
}

export type Measured = z.output<ReturnType<typeof measured>>;

const reading = (id: QuantityId) => measured(id, id === 'temperature' ? temperature() : bounded(id));

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
export type Readings = z.output<typeof readingsSchema>;

const positive = (name: string, max: number, unit: string) =>
  z
    .number({ error: `${name} must be a number` })
    .positive({ error: `${name} must be more than 0${unit}` })
    .max(max, { error: `${name} can't be more than ${max}${unit}` });

/** From a barrel to an Olympic pool, L. */
const LARGEST_POOL_LITRES = 4_000_000;
const litres = (name: string) =>
  positive(name, LARGEST_POOL_LITRES, ' L').min(100, { error: `${name} can't be less than 100 L` });

export const poolSchema = z
  .strictObject({
    name: z.string().trim().max(80, { error: 'the name of the pool is too long' }).default(''),
    volumeLitres: litres('the volume'),
    /** The span the volume may lie in, where it was measured. */
    volumeLowLitres: litres('the lower end of the volume').optional(),
    volumeHighLitres: litres('the upper end of the volume').optional(),
    /** Lets water to replace be given as centimetres of level. */
    surfaceM2: positive('the surface of the water', 5000, ' m2').optional(),
    surface: z.enum(SURFACES, { error: `the surface must be one of: ${SURFACES.join(', ')}` }),
    /** What the heater's water side is made of. */
    heater: z.enum(['none', 'copper', 'other'], { error: 'the heater must be none, copper or other' }),
    chlorination: z.enum(CHLORINATIONS, {
      error: `the way of chlorinating must be one of: ${CHLORINATIONS.join(', ')}`,
    }),
    stabilised: z.boolean({ error: 'say whether the pool is kept with stabilizer' }),
    exposure: z.enum(['sun', 'covered'], { error: 'the pool must be in the sun or covered' }).default('sun'),
    pump: z
      .strictObject({
        litresPerHour: positive('the flow of the pump', 500_000, ' L/h'),
        basis: z.enum(['measured', 'rated']).default('rated'),
      })
      .optional(),
    cell: z
      .strictObject({
        gramsPerHour: positive('the output of the chlorinator', 2000, ' g/h'),
        setting: z
          .number({ error: 'the setting of the chlorinator must be a number' })
          .gt(0, { error: 'the setting of the chlorinator must be more than 0' })
          .max(1, { error: 'the setting of the chlorinator is a share, at most 1' })
          .default(1),
        amperes: positive('the current of the cell', 500, ' A').optional(),
        gaps: positive('the number of gaps', 100, '').optional(),
      })
      .optional(),
  })
  .superRefine(({ volumeLitres, volumeLowLitres, volumeHighLitres }, context) => {
    if ((volumeLowLitres ?? 0) > volumeLitres || (volumeHighLitres ?? Infinity) < volumeLitres) {
      context.addIssue({
        code: 'custom',
        path: ['volumeLitres'],
        message: 'the span of the volume must hold the volume',
      });
    }
  });
export type Pool = z.output<typeof poolSchema>;

export const shelfItemSchema = z
  .strictObject({
    product: z.enum(PRODUCT_IDS, { error: 'this product is not known here' }),
    /** Per cent, on the basis the product's label uses; blank: the usual strength is assumed. */
    strength: z.number({ error: 'the strength must be a number' }).optional(),
  })
  .superRefine((item, context) => {
    const { maxStrength, name } = product(item.product);
    if (item.strength === undefined || (item.strength > 0 && item.strength <= maxStrength)) return;
    context.addIssue({
      code: 'custom',
      path: ['strength'],
      message: `${name} can't have a strength of ${item.strength} %: it must be more than 0 and at most ${maxStrength} %`,
    });
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
  hours: positive('the hours between the readings', 72, ' h'),
  night: z.boolean({ error: 'say whether it was night' }),
});

/** A day's use as the logbook has learnt it, with its 90 % interval. */
const learntUseSchema = z
  .strictObject({
    value: z.number().min(0).max(100, { error: 'a pool can’t use up more than 100 mg/L of chlorine a day' }),
    low: z.number().min(0),
    high: z.number().max(100),
  })
  .refine(({ value, low, high }) => low <= value && value <= high, {
    error: 'the span of the chlorine use must hold its value',
  });

export const planInputSchema = z.strictObject({
  pool: poolSchema,
  readings: readingsSchema,
  look: z
    .strictObject({
      water: z.enum(['clear', 'cloudy', 'green']),
      /** Can the deepest part of the floor be seen clearly? */
      bottomVisible: z.boolean(),
    })
    .partial()
    .default({}),
  shelf: z.array(shelfItemSchema).max(40, { error: 'the shelf holds at most 40 products' }).default([]),
  fill: fillWaterSchema.default({}),
  chlorineLoss: lossSchema.optional(),
  /** Goes behind a loss that was measured. */
  chlorineUse: learntUseSchema.optional(),
  targets: targetsSchema.default({}),
});
export type PlanInput = z.output<typeof planInputSchema>;

/** One thing wrong: where, as a path a person can follow, and what. */
export interface InputIssue {
  readonly where: string;
  readonly message: string;
}

export type ParsedPlanInput = { ok: true; input: PlanInput } | { ok: false; issues: InputIssue[] };

/** Checks anything that claims to be the input of a plan; the issues are sentences for the owner. */
export function parsePlanInput(input: unknown): ParsedPlanInput {
  const result = planInputSchema.safeParse(input);
  if (result.success) return { ok: true, input: result.data };
  return {
    ok: false,
    issues: result.error.issues.map(({ path, message }) => ({
      where: path.map((part) => (typeof part === 'number' ? String(part + 1) : String(part))).join(', '),
      message,
    })),
  };
}
