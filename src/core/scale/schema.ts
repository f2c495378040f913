/**
 * The strip scale: how one strip product turns values into colours.
 * Every file that claims to be a scale goes through `parseScale`.
 */
import * as z from 'zod';
import { LEAST_MARK, MOST_MARK } from '../card/print-mark.ts';
import { cleanText } from '../log/text.ts';
import { PAD_QUANTITIES, unitOf } from '../measurement/quantities.ts';

const finite = (what: string) => z.number({ error: `${what} must be a number` });
/** Above it lies no water. */
const MAX_PH = 14;
const millimetres = (what: string, max: number) =>
  finite(what)
    .positive({ error: `${what} must be more than 0 mm` })
    .max(max, { error: `${what} must be at most ${max} mm` });
const seconds = (what: string) =>
  finite(what)
    .min(0, { error: `${what} can't be negative` })
    .max(3600, { error: `${what} must be at most an hour` });

/** CIELAB under D65 (2 degree observer): [L*, a*, b*]. */
export const labSchema = z.tuple([
  finite('L*').min(0, { error: "L* can't be below 0" }).max(110, { error: "L* can't be above 110" }),
  finite('a*').min(-150).max(150),
  finite('b*').min(-150).max(150),
]);

export const blockSchema = z.object({
  /** The value printed beside the block, in the pad's unit. */
  value: finite('a block value').min(0, { error: "a block value can't be negative" }).max(100_000),
  /** The block's corrected colour. */
  lab: labSchema,
});

export const padSchema = z
  .object({
    parameter: z.enum(PAD_QUANTITIES, {
      error: `a pad's parameter must be one of: ${PAD_QUANTITIES.join(', ')}`,
    }),
    /** 'mg/L' or 'pH'. */
    unit: z.enum(['mg/L', 'pH'], { error: "a pad's unit must be 'mg/L' or 'pH'" }),
    /** Centre of the pad from the pad end of the strip, along it. */
    centreMm: finite('centreMm').min(0).max(200),
    /** Size along the strip. */
    widthMm: millimetres('a pad width', 30),
    /** Size across the strip. */
    heightMm: millimetres('a pad height', 20),
    /** The pad's colour before it is dipped: tells a strip that never was. */
    dry: labSchema.optional(),
    blocks: z
      .array(blockSchema)
      .min(2, { error: 'a pad needs at least two blocks' })
      .max(40, { error: 'a pad has at most 40 blocks' }),
  })
  .superRefine((pad, context) => {
    if (pad.unit !== unitOf(pad.parameter)) {
      const message = `${pad.parameter} has the unit '${unitOf(pad.parameter)}'`;
      context.addIssue({ code: 'custom', path: ['unit'], message });
    }
    const top = pad.blocks.at(-1)!.value;
    if (pad.parameter === 'ph' && top > MAX_PH) {
      const message = `a pH can't be above ${MAX_PH}, but a block says ${top}`;
      context.addIssue({ code: 'custom', path: ['blocks', pad.blocks.length - 1, 'value'], message });
    }
    pad.blocks.forEach((block, i) => {
      const before = pad.blocks[i - 1];
      if (before && block.value <= before.value) {
        context.addIssue({
          code: 'custom',
          path: ['blocks', i, 'value'],
          message: `block values must rise along the chart, but ${block.value} comes after ${before.value}`,
        });
      }
    });
  });

const linearSchema = z.tuple([
  finite('red').min(-1).max(4),
  finite('green').min(-1).max(4),
  finite('blue').min(-1).max(4),
]);

/**
 * One photo that taught the scale: the colours of its card and of the chart's blocks, corrected by the card's
 * greys. Patches are linear sRGB reflectance by id; blocks are Lab D65, in the order of the pads and their blocks.
 */
export const teachingSchema = z.object({
  cardVersion: z.number().int().min(1).max(31),
  /** Of the print in the photo; left out: version 1, which has none, or a mark that couldn't be read. */
  printMark: z.number().int().min(LEAST_MARK).max(MOST_MARK).optional(),
  /** The owner's word for the light. */
  light: z.string().max(80).default(''),
  print: z.object({
    dotGain: finite('dotGain').min(-0.5).max(1),
    black: finite('black').min(-0.5).max(1),
    /** Red and blue against green in its greys, ln; left out: black ink alone. */
    tint: z.tuple([finite('red tint').min(-1).max(1), finite('blue tint').min(-1).max(1)]).optional(),
  }),
  neutrals: z.record(z.string().max(12), linearSchema),
  anchors: z.record(z.string().max(12), linearSchema),
  blocks: z.array(z.array(labSchema).max(40)).max(12),
});

/** What one reading taught that was corrected by hand: how far the pad's colour lay from the chart's at a known value. */
export const learntSchema = z.object({
  parameter: z.enum(PAD_QUANTITIES),
  /** What the other test said, in the pad's unit. */
  value: finite('a known value').min(0).max(100_000),
  /** The pad's Lab less the chart's at that value, as a teaching photo showed them. */
  off: z.tuple([finite('L*').min(-100).max(100), finite('a*').min(-100).max(100), finite('b*').min(-100).max(100)]),
  /** One standard deviation of that, CIEDE2000. */
  sigma: finite('sigma').min(0.1).max(100),
  /** Position of that teaching photo; null where the greys alone led. */
  teaching: z.number().int().min(0).max(19).nullable(),
  /** When, ISO 8601. */
  at: z.string().max(40),
});

export const scaleSchema = z
  .object({
    format: z.literal('dipwise-scale', { error: "this isn't a strip scale: format must be 'dipwise-scale'" }),
    version: z.literal(1, { error: 'this scale was made by another version of Dipwise' }),
    id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,63}$/, { error: 'id must be lower-case letters, digits and hyphens' }),
    /** The owner's name for the product. */
    name: z
      .string()
      .max(1000, { error: 'the name is too long' })
      // What can't be written down in the logbook, such as control characters, is no part of a name.
      .transform((name) => cleanText(name, 1000).replaceAll('\n', ' ').trim())
      .pipe(z.string().min(1, { error: 'the scale needs a name' }).max(120, { error: 'the name is too long' })),
    /** Practice scales are invented and match no product. */
    origin: z.enum(['practice', 'taught']),
    /** White point of every Lab in the scale. */
    white: z.literal('D65', { error: "white must be 'D65': convert the colours first" }),
    strip: z.object({
      lengthMm: finite('strip length')
        .min(40, { error: 'the strip must be at least 40 mm long' })
        .max(120, { error: 'the strip must be at most 120 mm long' }),
      widthMm: finite('strip width')
        .min(3, { error: 'the strip must be at least 3 mm wide' })
        .max(12, { error: 'the strip must be at most 12 mm wide' }),
      /** Colour of the dry plastic; helps to take the wet film off. */
      base: labSchema.optional(),
    }),
    /** Pads in order from the pad end. */
    pads: z.array(padSchema).min(1, { error: 'the scale needs at least one pad' }).max(12),
    dipSeconds: seconds('dipSeconds'),
    /** Reading window, counted from the end of the dip. */
    readAfterSeconds: seconds('readAfterSeconds'),
    readBeforeSeconds: seconds('readBeforeSeconds'),
    teachings: z.array(teachingSchema).max(20).default([]),
    learnt: z.array(learntSchema).max(200).optional(),
  })
  .superRefine((scale, context) => {
    if (scale.readBeforeSeconds <= scale.readAfterSeconds) {
      context.addIssue({
        code: 'custom',
        path: ['readBeforeSeconds'],
        message: 'the reading window must end after it begins',
      });
    }
    scale.teachings.forEach(({ blocks }, i) => {
      if (scale.pads.some((pad, k) => blocks[k]?.length !== pad.blocks.length) || blocks.length !== scale.pads.length) {
        const message = 'a teaching photo must have a colour for every block of every pad';
        context.addIssue({ code: 'custom', path: ['teachings', i, 'blocks'], message });
      }
    });
    scale.pads.forEach((pad, i) => {
      const next = scale.pads[i + 1];
      if (pad.centreMm + pad.widthMm / 2 > scale.strip.lengthMm) {
        context.addIssue({ code: 'custom', path: ['pads', i, 'centreMm'], message: 'the pad lies beyond the strip' });
      }
      if (next && pad.centreMm + pad.widthMm / 2 > next.centreMm - next.widthMm / 2 + 0.01) {
        context.addIssue({
          code: 'custom',
          path: ['pads', i + 1, 'centreMm'],
          message: 'pads must be in order from the pad end and must not overlap',
        });
      }
      if (scale.pads.findIndex((other) => other.parameter === pad.parameter) !== i) {
        context.addIssue({ code: 'custom', path: ['pads', i, 'parameter'], message: `${pad.parameter} appears twice` });
      }
    });
  });

export type StripScale = z.output<typeof scaleSchema>;
export type ScalePad = StripScale['pads'][number];
export type Block = ScalePad['blocks'][number];
export type Learnt = z.output<typeof learntSchema>;
export type Teaching = z.output<typeof teachingSchema>;

/** One thing wrong with a scale: where (as a path a person can follow) and what. */
export interface ScaleIssue {
  readonly where: string;
  readonly message: string;
}

export type ParsedScale = { ok: true; scale: StripScale } | { ok: false; issues: ScaleIssue[] };

/** Checks anything that claims to be a scale; the issues are sentences for the owner. */
export function parseScale(input: unknown): ParsedScale {
  const result = scaleSchema.safeParse(input);
  if (result.success) return { ok: true, scale: result.data };
  return {
    ok: false,
    issues: result.error.issues.map((issue) => ({ where: describePath(issue.path), message: issue.message })),
  };
}

function describePath(path: readonly PropertyKey[]): string {
  return path
    .map((key, i) => {
      if (typeof key !== 'number') return String(key);
      const of = path[i - 1];
      return of === 'pads' ? `pad ${key + 1}` : of === 'blocks' ? `block ${key + 1}` : `${key + 1}`;
    })
    .filter((part) => part !== 'pads' && part !== 'blocks')
    .join(', ');
}
