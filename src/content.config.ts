import { defineCollection, reference } from 'astro:content';
import { file, glob } from 'astro/loaders';
import { z } from 'astro/zod';
import { PAD_QUANTITIES } from './core/measurement/quantities.ts';
import { scaleSchema } from './core/scale/schema.ts';

const STATUSES = ['read', 'checked', 'memory', 'common-practice'] as const;

/** Every source that the explainers cite, once; a page lists those it uses. */
const sources = defineCollection({
  loader: file('src/content/sources.json'),
  schema: z.object({
    /** As it is printed in a page's list. */
    text: z.string({ error: 'a source needs its text' }).min(10),
    /** read: seen in the named text. checked: also recomputed. memory: unverified. */
    status: z.enum(STATUSES, { error: `a source's status must be one of: ${STATUSES.join(', ')}` }),
    /** What about the reading of it the visitor should know. */
    note: z.string().optional(),
  }),
});

const learn = defineCollection({
  loader: glob({ base: 'src/content/learn', pattern: '*.mdx' }),
  schema: z.object({
    title: z.string({ error: 'an explainer needs a title' }),
    /** One or two plain sentences: shown at the top, in the index and in search results. */
    summary: z.string({ error: 'an explainer needs a summary' }).min(40).max(260),
    /** A parameter page answers the same questions in the same order. */
    kind: z.enum(['parameter', 'strip', 'pool']),
    /** What the page's pad measures, if a strip has a pad for it. */
    parameter: z.enum(PAD_QUANTITIES).optional(),
    /** Pages follow each other by it. */
    order: z.number({ error: 'order must be a number' }),
    related: z.array(reference('learn')).max(4, { error: 'at most four related pages' }),
    /** In the order in which the text first names them; their letters follow from it. */
    sources: z.array(reference('sources')).min(1, { error: 'an explainer needs at least one source' }),
    lastReviewed: z.coerce.date({ error: 'lastReviewed must be a date, such as 2026-01-31' }),
    /** What can hurt someone here; shown at the top. */
    cautions: z.array(z.string()),
  }),
});

const scales = defineCollection({
  loader: glob({ base: 'src/content/scales', pattern: '*.json' }),
  schema: scaleSchema,
});

export const collections = { learn, sources, scales };
