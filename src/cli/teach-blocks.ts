/** BLOCKS.json: what the owner says of a chart and of where its blocks are in each photo. */
import * as z from 'zod';
import { PAD_QUANTITIES } from '../core/measurement/quantities.ts';

const parameter = z.enum(PAD_QUANTITIES, { error: `parameter must be one of: ${PAD_QUANTITIES.join(', ')}` });
const number = z.number({ error: 'must be a number' });

const chartPads = z
  .array(
    z.object({
      parameter,
      /** 'mg/L', 'ppm' (the same), 'pH' or nothing. */
      unit: z.enum(['mg/L', 'ppm', 'pH', ''], { error: "unit must be 'mg/L', 'ppm' or 'pH'" }).default(''),
      /** x and y: the block's middle in pixels of the upright photo at full size. */
      blocks: z.array(z.object({ value: number, x: number, y: number })).min(2, { error: 'a pad needs two blocks' }),
    }),
  )
  .min(1, { error: 'name at least one pad of the chart' });

export const blocksSchema = z
  .object({
    name: z.string({ error: 'the scale needs a name' }),
    dipSeconds: number,
    readAfterSeconds: number,
    readBeforeSeconds: number,
    strip: z.object({
      lengthMm: number,
      widthMm: number,
      pads: z.array(z.object({ parameter, centreMm: number, widthMm: number, heightMm: number })).min(1),
    }),
    /** The chart in the one photo, or in all of them where `photos` is left out. */
    pads: chartPads.optional(),
    /** The chart in each photo, in the order of the photos. */
    photos: z.array(z.object({ light: z.string().max(80).default(''), pads: chartPads })).optional(),
  })
  .refine((input) => input.pads ?? input.photos, { error: "give 'pads' for one photo or 'photos' for several" });

export type Blocks = z.output<typeof blocksSchema>;
export type ChartPads = z.output<typeof chartPads>;

/** The chart of each of so many photos, with its pads in the order of the strip's. @throws Error with a sentence */
export function chartsFor(blocks: Blocks, photoCount: number): { light: string; pads: ChartPads }[] {
  const charts = blocks.photos ?? Array.from({ length: photoCount }, () => ({ light: '', pads: blocks.pads! }));
  if (charts.length !== photoCount) {
    throw new Error(`'photos' describes ${charts.length} photos, but ${photoCount} were named`);
  }
  return charts.map(({ light, pads }, i) => ({
    light,
    pads: blocks.strip.pads.map((stripPad, k) => {
      const pad = pads.find((one) => one.parameter === stripPad.parameter);
      if (!pad) throw new Error(`photo ${i + 1}: the chart has no blocks for ${stripPad.parameter}`);
      const values = pad.blocks.map(({ value }) => value).join();
      const first = charts[0]!.pads.find((one) => one.parameter === stripPad.parameter)!;
      if (values !== first.blocks.map(({ value }) => value).join()) {
        throw new Error(`photo ${i + 1}, pad ${k + 1}: its values differ from those of the first photo`);
      }
      return pad;
    }),
  }));
}
