/**
 * A measurement: what was found of one quantity, how and when. Pads, the sheet, the hand-over, the plan and the
 * logbook all speak of this one thing; what comes out of storage or a file goes through its schema.
 */
import * as z from 'zod/mini';
import { intervalFor, METHODS } from './methods.ts';
import { QUANTITY_IDS, type QuantityId } from './quantities.ts';

/** Wider than any pool, so that whatever a scale can say can be kept; what a pool can be is for who uses it. */
const number = z.number().check(z.minimum(-5), z.maximum(100_000));

/** A value and its 90 % interval. */
export const estimateSchema = z
  .object({ value: number, low: number, high: number })
  .check(
    z.refine(({ low, value, high }) => low <= value && value <= high, { params: { code: 'value-outside-interval' } }),
  );
export type Estimate = z.output<typeof estimateSchema>;

export const OFF_SCALE = ['below', 'above'] as const;
export type OffScale = (typeof OFF_SCALE)[number] | null;

/** The strip scale that a photo was read with. */
export const usedScaleSchema = z.object({
  id: z.string().check(z.maxLength(64)),
  name: z.string().check(z.maxLength(120)),
  /** A practice scale is invented: what is read with it says nothing about a real strip. Null where it wasn't kept. */
  origin: z.nullable(z.enum(['practice', 'taught'])),
});
export type UsedScale = z.output<typeof usedScaleSchema>;

/** What was found, in the quantity's own unit, and how. */
export const foundFields = {
  quantity: z.enum(QUANTITY_IDS),
  ...estimateSchema.shape,
  /** A second, separate stretch of the scale that the colour fits as well. */
  alternative: z.nullable(estimateSchema),
  /** Beyond the end of the test's scale: the value is that end. */
  offScale: z.nullable(z.enum(OFF_SCALE)),
  /** The interval reaches the scale's lowest (highest) value: the true value may lie beyond what the test shows. */
  openBelow: z.boolean(),
  openAbove: z.boolean(),
  method: z.enum(METHODS),
};

export const measurementSchema = z
  .object({
    ...foundFields,
    /** Of a photo; null for everything else. */
    scale: z.nullable(usedScaleSchema),
    /** ISO 8601, UTC. */
    time: z.iso.datetime({ precision: 3 }),
  })
  .check(
    z.refine(({ low, value, high }) => low <= value && value <= high, { params: { code: 'value-outside-interval' } }),
  );

export type Measurement = Readonly<z.output<typeof measurementSchema>>;
export type Result = Omit<Measurement, 'method' | 'scale' | 'time'>;

/** A measurement as people and files give it: only the value must be there. */
export type Given = Pick<Result, 'value'> & {
  readonly [Key in keyof Omit<Measurement, 'quantity' | 'value'>]?: Measurement[Key] | undefined;
};

/** What was left out filled in: nothing beyond the value, and the interval that its test deserves. */
export function completed(quantity: QuantityId, given: Given): Result & Pick<Measurement, 'method'> {
  const { value, offScale = null, method = 'unsaid' } = given;
  // Off the scale, its end is a firm bound on the near side.
  const usual = offScale || method === 'photo' ? { low: value, high: value } : intervalFor(quantity, value, method);
  const { low = usual.low, high = usual.high, alternative = null, openBelow = false, openAbove = false } = given;
  return { quantity, value, low, high, alternative, offScale, openBelow, openAbove, method };
}

export interface Reach extends Estimate {
  readonly openBelow: boolean;
  readonly openAbove: boolean;
}

/**
 * Everywhere the truth may lie: where two stretches of the scale fit, the span that holds both. Off the scale, its
 * end is a firm bound on the near side, and nothing bounds the far one.
 */
export function reachOf(result: Omit<Result, 'quantity'>): Reach {
  const { value, low, high, alternative, offScale } = result;
  return {
    value,
    low: Math.min(low, alternative?.low ?? low),
    high: Math.max(high, alternative?.high ?? high),
    openBelow: result.openBelow || offScale === 'below',
    openAbove: result.openAbove || offScale === 'above',
  };
}
