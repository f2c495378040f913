/**
 * What to take care of, as codes: products, steps and situations point to them. The label of the product overrules all
 * of them.
 */
export const CAUTION_CODES = [
  // Handling
  'label',
  'local-rules',
  'into-water',
  'never-mix',
  'acid-and-chlorine',
  'stabilised-and-hypochlorite',
  'keep-dry',
  'protection',
  'open-outdoors',
  'children-away',
  'poison-help',
  'one-at-a-time',
  'nobody-in-the-water',
  'gives-heat',
  'sulfate-attacks',
  'cold-water',
  'caustic',
  'keep-off-liner',
  'feed-stops-with-pump',
  // When to stay out
  'wait-before-swimming',
  'back-in-range-first',
  'label-chlorine-limit',
  'chlorine-above-limit',
  'ph-stings',
  'see-the-bottom',
  'sick-in-the-pool',
  'too-hot',
  // Stabilizer
  'stabilizer-stays',
  'stabilised-adds',
  // Salt, metal, electricity
  'salt-attacks',
  'electricity',
  'hard-water',
  'isolate-cell',
  // Opening and closing, the filter
  'drown-cover',
  'drain-covers',
  'filter-under-pressure',
  // Draining
  'discharge-permission',
  'discharge-salt',
  'discharge-slowly',
  'never-empty',
  'discharge-downhill',
  'liner-moves',
  // What a strip can't tell
  'strip-steps',
  'strip-blind',
  'strip-bound-chlorine',
  'strip-combined-poor',
  'strip-total-hardness',
  'strip-bleached',
] as const;

export type CautionCode = (typeof CAUTION_CODES)[number];
