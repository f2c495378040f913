import { glob } from 'astro/loaders';
import { defineCollection } from 'astro:content';
import { scaleSchema } from './core/scale/schema.ts';

export const collections = {
  scales: defineCollection({ loader: glob({ pattern: '*.json', base: 'src/content/scales' }), schema: scaleSchema }),
};
