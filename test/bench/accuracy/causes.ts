/** What makes a reading wrong in the simulated world. Each can be taken away, alone or with the others. */
export const CAUSES = {
  light: 'light that differs between teaching and reading',
  inks: 'chart inks that match the pads only to the eye',
  film: 'wet film',
  dye: 'dye that varies from strip to strip and pad to pad',
  printer: 'home printers and papers that vary',
  shading: 'uneven light and cast over the card',
  balance: 'white balance',
  tone: 'tone curve and vividness',
  turning: 'colours turned by hue',
  stray: 'stray light in the lens',
  noise: 'camera noise',
  curve: 'a curve known at its blocks alone',
} as const;

export type Cause = keyof typeof CAUSES;

export const CAUSE_NAMES = Object.keys(CAUSES) as Cause[];

/** The world as it is. */
export const EVERYTHING: ReadonlySet<Cause> = new Set(CAUSE_NAMES);

export function without(...taken: readonly Cause[]): ReadonlySet<Cause> {
  return new Set(CAUSE_NAMES.filter((cause) => !taken.includes(cause)));
}
