/** What a strip can measure. The ids are used in files, addresses and commands: they don't change. */
export const PARAMETER_IDS = [
  'free-chlorine',
  'total-chlorine',
  'ph',
  'total-alkalinity',
  'total-hardness',
  'cyanuric-acid',
  'salt',
] as const;

export type ParameterId = (typeof PARAMETER_IDS)[number];
