/**
 * The strip scale: how one strip product turns values into colours.
 * Every file that claims to be a scale goes through `parseScale`.
 */
import * as z from 'zod';
import { type Fault, faultOf } from '../fault.ts';
import { MIN_MARK, MAX_MARK } from '../card/print-mark.ts';
import { cleanText } from '../text.ts';
import { PAD_QUANTITIES, unitOf } from '../measurement/quantities.ts';

/** Above it lies no water. */
const MAX_PH = 14;
const millimetres = (max: number) => z.number().positive().max(max);
const seconds = () => z.number().min(0).max(3600);

/** CIELAB under D65 (2 degree observer): [L*, a*, b*]. */
export const labSchema = z.tuple([
  z.number().min(0).max(110),
  z.number().min(-150).max(150),
  z.number().min(-150).max(150),
]);

export const blockSchema = z.object({
  /** The value printed beside the block, in the pad's unit. */
  value: z.number().min(0).max(100_000),
  /** The block's corrected colour. */
  lab: labSchema,
});

export const padSchema = z
  .object({
    parameter: z.enum(PAD_QUANTITIES),
    /** 'mg/L' or 'pH'. */
    unit: z.enum(['mg/L', 'pH']),
    /** Centre of the pad from the pad end of the strip, along it. */
    centreMm: z.number().min(0).max(200),
    /** Size along the strip. */
    widthMm: millimetres(30),
    /** Size across the strip. */
    heightMm: millimetres(20),
    /** The pad's colour before it is dipped: tells a strip that never was. */
    dry: labSchema.optional(),
    blocks: z.array(blockSchema).min(2).max(40),
  })
  .superRefine((pad, context) => {
    if (pad.unit !== unitOf(pad.parameter)) {
      const params = { code: 'other-unit', parameter: pad.parameter, unit: unitOf(pad.parameter) };
      context.addIssue({ code: 'custom', path: ['unit'], params });
    }
    const top = pad.blocks.at(-1)!.value;
    if (pad.parameter === 'ph' && top > MAX_PH) {
      const params = { code: 'ph-too-high', value: top, limit: MAX_PH };
      context.addIssue({ code: 'custom', path: ['blocks', pad.blocks.length - 1, 'value'], params });
    }
    pad.blocks.forEach((block, i) => {
      const before = pad.blocks[i - 1];
      if (before && block.value <= before.value) {
        context.addIssue({
          code: 'custom',
          path: ['blocks', i, 'value'],
          params: { code: 'values-not-rising', value: block.value, before: before.value },
        });
      }
    });
  });

const linearSchema = z.tuple([z.number().min(-1).max(4), z.number().min(-1).max(4), z.number().min(-1).max(4)]);

/**
 * One photo that taught the scale: the colours of its card and of the chart's blocks, corrected by the card's
 * greys. Patches are linear sRGB reflectance by id; blocks are Lab D65, in the order of the pads and their blocks.
 */
export const teachingSchema = z.object({
  cardVersion: z.number().int().min(1).max(31),
  /** Of the print in the photo; left out: version 1, which has none, or a mark that couldn't be read. */
  printMark: z.number().int().min(MIN_MARK).max(MAX_MARK).optional(),
  /** The owner's word for the light. */
  light: z.string().max(80).default(''),
  print: z.object({
    dotGain: z.number().min(-0.5).max(1),
    black: z.number().min(-0.5).max(1),
    /** Red and blue against green in its greys, ln; left out: black ink alone. */
    tint: z.tuple([z.number().min(-1).max(1), z.number().min(-1).max(1)]).optional(),
  }),
  neutrals: z.record(z.string().max(12), linearSchema),
  anchors: z.record(z.string().max(12), linearSchema),
  blocks: z.array(z.array(labSchema).max(40)).max(12),
  /** Where no chart was in the photo and a known strip told its colours: one standard deviation of them, CIEDE2000. */
  doubt: z.number().min(0).max(100).optional(),
});

/** What one reading taught that was corrected by hand: how far the pad's colour lay from the chart's at a known value. */
export const learntSchema = z.object({
  parameter: z.enum(PAD_QUANTITIES),
  /** What the other test said, in the pad's unit. */
  value: z.number().min(0).max(100_000),
  /** The pad's Lab less the chart's at that value, as a teaching photo showed them. */
  off: z.tuple([z.number().min(-100).max(100), z.number().min(-100).max(100), z.number().min(-100).max(100)]),
  /** One standard deviation of that, CIEDE2000. */
  sigma: z.number().min(0.1).max(100),
  /** Position of that teaching photo; null where the greys alone led. */
  teaching: z.number().int().min(0).max(19).nullable(),
  /** When, ISO 8601. */
  at: z.string().max(40),
});

export const scaleSchema = z
  .object({
    format: z.literal('dipwise-scale'),
    version: z.literal(1),
    id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,63}$/),
    /** The owner's name for the product. */
    name: z
      .string()
      .max(1000)
      // What can't be written down in the logbook, such as control characters, is no part of a name.
      .transform((name) => cleanText(name, 1000).replaceAll('\n', ' ').trim())
      .pipe(z.string().min(1).max(120)),
    /** Practice scales are invented and match no product. */
    origin: z.enum(['practice', 'taught']),
    /** White point of every Lab in the scale. */
    white: z.literal('D65'),
    strip: z.object({
      lengthMm: z.number().min(40).max(120),
      widthMm: z.number().min(3).max(12),
      /** Colour of the dry plastic; helps to take the wet film off. */
      base: labSchema.optional(),
    }),
    /** Pads in order from the pad end. */
    pads: z.array(padSchema).min(1).max(12),
    dipSeconds: seconds(),
    /** Reading window, counted from the end of the dip. */
    readAfterSeconds: seconds(),
    readBeforeSeconds: seconds(),
    teachings: z.array(teachingSchema).max(20).default([]),
    learnt: z.array(learntSchema).max(200).optional(),
  })
  .superRefine((scale, context) => {
    if (scale.readBeforeSeconds <= scale.readAfterSeconds) {
      context.addIssue({
        code: 'custom',
        path: ['readBeforeSeconds'],
        params: { code: 'window-ends-first' },
      });
    }
    scale.teachings.forEach(({ blocks }, i) => {
      if (scale.pads.some((pad, k) => blocks[k]?.length !== pad.blocks.length) || blocks.length !== scale.pads.length) {
        context.addIssue({ code: 'custom', path: ['teachings', i, 'blocks'], params: { code: 'colours-missing' } });
      }
    });
    scale.pads.forEach((pad, i) => {
      const next = scale.pads[i + 1];
      if (pad.centreMm + pad.widthMm / 2 > scale.strip.lengthMm) {
        context.addIssue({ code: 'custom', path: ['pads', i, 'centreMm'], params: { code: 'beyond-strip' } });
      }
      if (next && pad.centreMm + pad.widthMm / 2 > next.centreMm - next.widthMm / 2 + 0.01) {
        context.addIssue({
          code: 'custom',
          path: ['pads', i + 1, 'centreMm'],
          params: { code: 'pads-overlap' },
        });
      }
      if (scale.pads.findIndex((other) => other.parameter === pad.parameter) !== i) {
        context.addIssue({
          code: 'custom',
          path: ['pads', i, 'parameter'],
          params: { code: 'appears-twice', parameter: pad.parameter },
        });
      }
    });
  });

export type StripScale = z.output<typeof scaleSchema>;
export type ScalePad = StripScale['pads'][number];
export type Block = ScalePad['blocks'][number];
export type Learnt = z.output<typeof learntSchema>;
export type Teaching = z.output<typeof teachingSchema>;

export type ParsedScale = { ok: true; scale: StripScale } | { ok: false; issues: Fault[] };

/** Checks anything that claims to be a scale. */
export function parseScale(input: unknown): ParsedScale {
  const result = scaleSchema.safeParse(input);
  return result.success ? { ok: true, scale: result.data } : { ok: false, issues: result.error.issues.map(faultOf) };
}
