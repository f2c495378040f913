// `npm run --silent teach -- --blocks BLOCKS.json --out SCALE.json [--strip PHOTO] PHOTO...`: photos of a chart to a
// strip scale. A photo of the strip on the card, dry or dipped, adds the colour of its plastic.
import { writeFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { photoMessage } from '../words/photo.ts';
import { refusalMessage } from '../words/reading.ts';
import { checkScale } from '../core/scale/check-scale.ts';
import { parseScale, type StripScale } from '../core/scale/schema.ts';
import { type TaughtPhoto, teachScale } from '../core/scale/teach.ts';
import { withStripBase } from '../core/scale/strip-base.ts';
import type { Pixels } from '../vision/pixels.ts';
import { openStrip } from '../vision/strip/open-strip.ts';
import { sampleChart } from '../vision/chart/sample-chart.ts';
import { openPhotoAt } from './decode.ts';
import { startNodeEngine } from './engine.ts';
import { checkWritable, readText } from './files.ts';
import { EXIT, print } from './output.ts';
import { type Blocks, blocksSchema, type ChartPads, chartsFor } from './teach-blocks.ts';
import { faultLine } from '../words/faults.ts';

const USAGE = `Usage: npm run --silent teach -- --blocks BLOCKS.json --out SCALE.json [--strip PHOTO] PHOTO...
Ends with 0 when the scale was written, 1 when a photo was refused or missing, 2 when it was asked wrongly.`;

/** A photo that can't be used, though the command was asked well. */
class PhotoRefused extends Error {}

try {
  const { blocks, out, photos, strip } = await readArguments();
  const taught = await teach(blocks, photos);
  const scale = strip ? await withStrip(taught, strip) : taught;
  await writeFile(out, `${JSON.stringify(scale, null, 2)}\n`);
  const found = strip === null ? {} : { stripBase: scale.strip.base ?? null };
  await print(JSON.stringify({ scale: out, photos: photos.length, ...found, concerns: checkScale(scale) }));
} catch (error) {
  const isRefused = error instanceof PhotoRefused;
  console.error(isRefused ? error.message : `${(error as Error).message}\n${USAGE}`);
  process.exitCode = isRefused ? EXIT.partly : EXIT.wrongUse;
}

async function readArguments(): Promise<{ blocks: Blocks; out: string; photos: string[]; strip: string | null }> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { blocks: { type: 'string' }, out: { type: 'string' }, strip: { type: 'string' } },
  });
  if (!values.blocks || !values.out) throw new Error('name the blocks file with --blocks and the scale with --out');
  if (positionals.length === 0) throw new Error('name at least one photo of the chart');
  await checkWritable(values.out);
  const text = await readText(values.blocks);
  const parsed = blocksSchema.safeParse(parseJson(text, values.blocks));
  if (parsed.success) {
    return { blocks: parsed.data, out: values.out, photos: positionals, strip: values.strip ?? null };
  }
  const issues = parsed.error.issues.map(({ path, message }) => `  ${path.join('.') || 'the file'}: ${message}`);
  throw new Error(`${values.blocks} can't be used:\n${issues.join('\n')}`);
}

function parseJson(text: string, name: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new Error(`${name} isn't JSON`);
  }
}

async function teach(blocks: Blocks, photos: readonly string[]): Promise<StripScale> {
  const charts = chartsFor(blocks, photos.length);
  const cv = await startNodeEngine();
  const taught: TaughtPhoto[] = [];
  for (const [i, photo] of photos.entries()) taught.push(await look(cv, photo, charts[i]!));
  const pads = blocks.strip.pads.map((pad, k) => ({
    ...pad,
    unit: pad.parameter === 'ph' ? ('pH' as const) : ('mg/L' as const),
    values: charts[0]!.pads[k]!.blocks.map(({ value }) => value),
  }));
  const { lengthMm, widthMm } = blocks.strip;
  const parsed = parseScale(teachScale({ ...blocks, strip: { lengthMm, widthMm }, pads }, taught, idOf(blocks.name)));
  if (parsed.ok) return parsed.scale;
  throw new Error(parsed.issues.map(faultLine).join('\n'));
}

async function look(
  cv: Awaited<ReturnType<typeof startNodeEngine>>,
  photo: string,
  { light, pads }: { light: string; pads: ChartPads },
): Promise<TaughtPhoto> {
  const { pixels, factor } = await photoAt(photo);
  const places = pads.map((pad) => pad.blocks.map(({ x, y }) => [x / factor, y / factor] as const));
  const chart = sampleChart(cv, pixels, places);
  if (chart.reason === null) return { light: light || basename(photo), card: chart.card, blocks: chart.blocks };
  if ('at' in chart) {
    const [pad, block] = chart.at;
    const where = chart.reason === 'off-photo' ? 'outside the photo' : 'on the card';
    throw new Error(`${photo}: block ${block + 1} of ${pads[pad]!.parameter} lies ${where}`);
  }
  throw new PhotoRefused(`${photo}: ${sentences(refusalMessage(chart.reason))}`);
}

function sentences({ wrong, remedy }: { wrong: string; remedy: string }): string {
  return `${wrong} ${remedy}`;
}

async function withStrip(scale: StripScale, photo: string): Promise<StripScale> {
  const cv = await startNodeEngine();
  const { pixels } = await photoAt(photo);
  const { found, reason } = openStrip(cv, pixels, scale.pads.length);
  if (!found) throw new PhotoRefused(`${photo}: ${sentences(refusalMessage(reason))}`);
  return withStripBase(scale, { card: found.samples, base: found.strip.base });
}

/** @throws PhotoRefused with a sentence when the file can't be opened or isn't a photo */
async function photoAt(path: string): Promise<{ pixels: Pixels; factor: number }> {
  const opened = await openPhotoAt(path);
  if (!opened.ok) throw new PhotoRefused(`${path}: ${sentences(photoMessage(opened.failure))}`);
  return opened;
}

function idOf(name: string): string {
  const id = name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 60);
  return id || 'taught-scale';
}
