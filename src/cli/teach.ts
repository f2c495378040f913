// `npm run --silent teach -- --blocks BLOCKS.json --out SCALE.json [--strip PHOTO] PHOTO...`: photos of a chart to a
// strip scale. A photo of the strip on the card, dry or dipped, adds the colour of its plastic. With `--add SCALE.json`
// a scale gets to know another light or another print of the card.
import { writeFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { refusalMessage } from '../words/reading.ts';
import { checkScale } from '../core/scale/check-scale.ts';
import { parseScale, type StripScale } from '../core/scale/schema.ts';
import { type TaughtPhoto, teachScale } from '../core/scale/teach.ts';
import { withStripBase } from '../core/scale/strip-base.ts';
import { openStrip } from '../vision/strip/open-strip.ts';
import { sampleChart } from '../vision/chart/sample-chart.ts';
import { photoAt, PhotoRefused, sentences } from './refused.ts';
import { loadScale } from './scales.ts';
import { type KnownValues, knownValues, withCharts, withKnownStrip } from './teach-more.ts';
import { checkWritable, readText } from './files.ts';
import { called, EXIT, print } from './output.ts';
import { type Blocks, blocksSchema, type ChartPads, chartsFor } from './teach-blocks.ts';
import { faultLine } from '../words/faults.ts';

const USAGE = `Usage: ${called('teach')} --blocks BLOCKS.json --out SCALE.json [--strip PHOTO] PHOTO...
       ${called('teach')} --add SCALE.json --blocks BLOCKS.json --out SCALE.json PHOTO...
       ${called('teach')} --add SCALE.json --values ph=7.4,total-alkalinity=90 --out SCALE.json PHOTO
--add takes a scale that is there: photos of its chart in another light or beside another print of the card are added to
it; or, with --values, one photo of a dipped strip of known values beside another print.
Ends with 0 when the scale was written, 1 when a photo was refused or missing, 2 when it was asked wrongly.`;

try {
  const asked = await readArguments();
  const { out, photos } = asked;
  const scale = await made(asked);
  await writeFile(out, `${JSON.stringify(scale, null, 2)}\n`);
  const found = 'strip' in asked && asked.strip ? { stripBase: scale.strip.base ?? null } : {};
  await print(JSON.stringify({ scale: out, photos: photos.length, ...found, concerns: checkScale(scale) }));
} catch (error) {
  const isRefused = error instanceof PhotoRefused;
  console.error(isRefused ? error.message : `${(error as Error).message}\n${USAGE}`);
  process.exitCode = isRefused ? EXIT.partly : EXIT.wrongUse;
}

async function made(asked: Asked): Promise<StripScale> {
  if ('values' in asked) return withKnownStrip(asked.add, asked.photos[0]!, asked.values);
  const { blocks, photos, add, strip } = asked;
  if (add) return withCharts(add, blocks, await looked(blocks, photos));
  const taught = await teach(blocks, photos);
  return strip ? withStrip(taught, strip) : taught;
}

type Asked = { readonly out: string; readonly photos: readonly string[] } & (
  | { readonly add: StripScale; readonly values: KnownValues }
  | { readonly add: StripScale | null; readonly blocks: Blocks; readonly strip: string | null }
);

async function readArguments(): Promise<Asked> {
  const text = { type: 'string' } as const;
  const options = { blocks: text, out: text, strip: text, add: text, values: text };
  const { values, positionals } = parseArgs({ allowPositionals: true, options });
  const { out, add } = values;
  if (!out || !(values.blocks || values.values)) {
    throw new Error('name the blocks file with --blocks and the scale with --out');
  }
  if (positionals.length === 0) throw new Error('name at least one photo of the chart');
  const shared = { out, photos: positionals };
  if (values.values !== undefined) {
    if (!add || positionals.length > 1) throw new Error('--values goes with --add and one photo of the strip');
    const scale = await loadScale(add);
    const known = knownValues(values.values, scale);
    await checkWritable(out);
    return { ...shared, add: scale, values: known };
  }
  if (add && values.strip) throw new Error('--strip goes with a scale that is taught anew, not with --add');
  const scale = add ? await loadScale(add) : null;
  await checkWritable(out);
  return { ...shared, add: scale, blocks: await readBlocks(values.blocks!), strip: values.strip ?? null };
}

async function readBlocks(path: string): Promise<Blocks> {
  const parsed = blocksSchema.safeParse(parseJson(await readText(path), path));
  if (parsed.success) return parsed.data;
  const issues = parsed.error.issues.map(({ path: at, message }) => `  ${at.join('.') || 'the file'}: ${message}`);
  throw new Error(`${path} can't be used:\n${issues.join('\n')}`);
}

function parseJson(text: string, name: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new Error(`${name} isn't JSON`);
  }
}

async function looked(blocks: Blocks, photos: readonly string[]): Promise<TaughtPhoto[]> {
  const charts = chartsFor(blocks, photos.length);
  const taught: TaughtPhoto[] = [];
  for (const [i, photo] of photos.entries()) taught.push(await look(photo, charts[i]!));
  return taught;
}

async function teach(blocks: Blocks, photos: readonly string[]): Promise<StripScale> {
  const charts = chartsFor(blocks, photos.length);
  const taught = await looked(blocks, photos);
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

async function look(photo: string, { light, pads }: { light: string; pads: ChartPads }): Promise<TaughtPhoto> {
  const { pixels, factor } = await photoAt(photo);
  const places = pads.map((pad) => pad.blocks.map(({ x, y }) => [x / factor, y / factor] as const));
  const chart = sampleChart(pixels, places);
  if (chart.reason === null) return { light: light || basename(photo), card: chart.card, blocks: chart.blocks };
  if ('at' in chart) {
    const [pad, block] = chart.at;
    const where = chart.reason === 'off-photo' ? 'outside the photo' : 'on the card';
    throw new Error(`${photo}: block ${block + 1} of ${pads[pad]!.parameter} lies ${where}`);
  }
  throw new PhotoRefused(`${photo}: ${sentences(refusalMessage(chart.reason))}`);
}

async function withStrip(scale: StripScale, photo: string): Promise<StripScale> {
  const { pixels } = await photoAt(photo);
  const { found, reason } = openStrip(pixels, scale.pads.length);
  if (!found) throw new PhotoRefused(`${photo}: ${sentences(refusalMessage(reason))}`);
  return withStripBase(scale, { card: found.samples, base: found.strip.base });
}

function idOf(name: string): string {
  const id = name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-+|-+$/g, '')
    .slice(0, 60);
  return id || 'taught-scale';
}
