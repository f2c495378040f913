/** The parts of the bench. */
import type { Section } from './section.ts';

/** Each is loaded when it is asked for: the parts need different things to be there. */
export const PARTS = {
  photo: async () => (await import('./photo/part.ts')).photoSection(),
  finders: async () => (await import('./finders/part.ts')).findersSection(),
  colour: async () => (await import('./colour.ts')).colourSection(),
  waters: async () => (await import('./waters.ts')).watersSection(),
  site: async () => (await import('./site.ts')).siteSection(),
} satisfies Record<string, () => Promise<Section>>;
export type Part = keyof typeof PARTS;
export const PART_NAMES = Object.keys(PARTS) as Part[];
