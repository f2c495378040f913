/**
 * When to test what: one table for the plan, the logbook and its calendar. Common practice, no source; a public pool
 * is tested many times a day.
 */
import type { QuantityId } from '../measurement/quantities.ts';

/** Days between tests of a home pool in use where nothing was done to it. */
export const ROUTINE_DAYS: Readonly<Record<QuantityId, number>> = {
  'free-chlorine': 3,
  'total-chlorine': 7,
  ph: 3,
  'total-alkalinity': 14,
  'total-hardness': 30,
  'calcium-hardness': 30,
  'cyanuric-acid': 30,
  salt: 30,
  boron: 60,
  temperature: 7,
};

/** A spa is small, hot and crowded: disinfectant and pH before every use, and daily. CDC healthy-swimming advice. */
export const SPA_ROUTINE_DAYS: Partial<Readonly<Record<QuantityId, number>>> = { 'free-chlorine': 0.5, ph: 0.5 };

/** Hours until an addition shows in a test; at least one turnover for what must mix through. */
export const SHOWS_AFTER_HOURS: Readonly<Record<QuantityId, number>> = {
  'free-chlorine': 1,
  'total-chlorine': 1,
  ph: 4,
  'total-alkalinity': 4,
  'total-hardness': 12,
  'calcium-hardness': 12,
  'cyanuric-acid': 7 * 24,
  salt: 24,
  boron: 24,
  temperature: 0,
};
