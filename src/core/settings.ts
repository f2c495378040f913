/** The choices a visitor has for the whole site. */
import type { Deficiency } from './colour/vision.ts';

export const UNIT_SYSTEMS = ['metric', 'us'] as const;
export const THEMES = ['auto', 'paper', 'night'] as const;
export type Theme = (typeof THEMES)[number];
export const EYES = ['full', 'protan', 'deutan', 'tritan'] as const satisfies readonly ('full' | Deficiency)[];
export type Eyes = (typeof EYES)[number];
