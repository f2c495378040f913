// `npm run hard [-- READABLE] [--unreadable COUNT] [--from FIRST] [--keep FOLDER] [--list]`: photos of the harder half against everyday
// ones, and photos that must not be read. A bench, not a test: it prints tables and judges nothing. With --keep the
// pictures are kept there and not made again; with --list the photos behind each number are named. Two runs that share a folder share the making.
import { parseArgs } from 'node:util';
import { loadScale } from '../../../src/cli/scales.ts';
import { readPhoto } from '../../../src/vision/read.ts';
import { hardScene, SIZES } from '../../studio/hard-scene.ts';
import { randomScene } from '../../studio/random-scene.ts';
import type { Scene } from '../../studio/scene/types.ts';
import { STRIPS } from '../../studio/strips/strips.ts';
import { CAUSES, RIGHT_CODES, unreadable } from '../../studio/unreadable.ts';
import { pictureOf } from './pictures.ts';
import { Tally } from './tally.ts';

const { values: options, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    unreadable: { type: 'string' },
    keep: { type: 'string' },
    list: { type: 'boolean' },
    from: { type: 'string' },
  },
});
const readable = countOf(positionals[0] ?? '200');
const refusable = countOf(options.unreadable ?? '500');
/** The first photo of each set: a long run can be shared out. */
const from = countOf(options.from ?? '0');
const folder = options.keep ?? null;
const everydaySize = { widthPx: SIZES.usual[0], heightPx: SIZES.usual[1] };

const scales = new Map(await Promise.all(STRIPS.map(async ({ id }) => [id, await loadScale(id)] as const)));

if (readable > 0) {
  const everyday = await readSet('everyday', (seed) =>
    randomScene(seed, 'everyday', STRIPS[seed % STRIPS.length]!, everydaySize),
  );
  const hard = await readSet('hard', (seed) => hardScene(seed, STRIPS[seed % STRIPS.length]!));
  console.log(
    '\n| photos | read | error, block steps: mean, 95 % | intervals that hold | not matched | wrong by over a block and confident |',
  );
  console.log('| --- | --- | --- | --- | --- | --- |');
  console.log(row('everyday', everyday));
  console.log(row('harder half', hard));
  const ratio = (of: (tally: Tally) => number) => (of(hard) / of(everyday)).toFixed(2);
  console.log(
    `harder half over everyday: mean ${ratio((tally) => tally.meanSteps)}, 95 % ${ratio((tally) => tally.percentile(0.95))}`,
  );
  tellRefusals('everyday', everyday);
  tellRefusals('harder half', hard);
}
if (refusable > 0) await refuseSet();

async function readSet(set: string, sceneOf: (seed: number) => Scene): Promise<Tally> {
  const tally = new Tally();
  for (let seed = from + 1; seed <= from + readable; seed++) {
    const scene = sceneOf(20_000 + seed);
    const { id, values } = scene.strip!;
    const name = `${set}-${seed}`;
    const { reading } = readPhoto(await pictureOf(name, scene, folder), scales.get(id)!);
    tally.add(name, reading, scales.get(id)!, values);
  }
  return tally;
}

async function refuseSet(): Promise<void> {
  const tallies = new Map(CAUSES.map((cause) => [cause, new Tally()]));
  for (let index = from; index < from + refusable; index++) {
    const { cause, scene, scaleId } = unreadable(index);
    const scale = scales.get(scaleId)!;
    const name = `${cause.replaceAll(' ', '-')}-${index}`;
    const { reading } = readPhoto(await pictureOf(name, scene, folder), scale);
    const values = scene.strip?.values ?? scene.screen?.shows.strip?.values ?? {};
    tallies.get(cause)!.add(name, reading, scale, values);
  }
  console.log('\n| must not be read | photos | refused | by a code that helps | wrong and confident | codes |');
  console.log('| --- | --- | --- | --- | --- | --- |');
  let [photos, refused, wrong] = [0, 0, 0];
  for (const [cause, tally] of tallies) {
    const right = [...tally.codes].filter(([code]) => (RIGHT_CODES[cause] as readonly string[]).includes(code));
    const helped = right.reduce((sum, [, names]) => sum + names.length, 0);
    const codes = [...tally.codes].map(([code, names]) => `${code} ${names.length}`).join(', ');
    const counts = [tally.photos, tally.photos - tally.read, helped, tally.wrong.length];
    console.log(`| ${[cause, ...counts, codes].join(' | ')} |`);
    photos += tally.photos;
    refused += tally.photos - tally.read;
    wrong += tally.wrong.length;
    if (options.list && tally.wrong.length > 0) console.error(`${cause}, wrong: ${tally.wrong.join(' ')}`);
  }
  console.log(
    `refused ${refused} of ${photos} (${((100 * refused) / photos).toFixed(1)} %); of those read ${wrong} wrong and confident`,
  );
}

function row(name: string, tally: Tally): string {
  return `| ${[
    name,
    `${tally.read} of ${tally.photos} (${((100 * tally.read) / tally.photos).toFixed(1)} %)`,
    `${tally.meanSteps.toFixed(3)}, ${tally.percentile(0.95).toFixed(2)}`,
    `${((100 * tally.held) / tally.steps.length).toFixed(1)} %`,
    `${tally.unmatched} of ${tally.pads}`,
    `${tally.wrong.length} photos`,
  ].join(' | ')} |`;
}

function tellRefusals(name: string, tally: Tally): void {
  for (const [code, names] of tally.codes) {
    console.log(`${name}, refused as ${code}: ${names.length}${options.list ? ` (${names.join(' ')})` : ''}`);
  }
  if (options.list && tally.wrong.length > 0) console.log(`${name}, wrong and confident: ${tally.wrong.join(' ')}`);
}

function countOf(text: string): number {
  const count = Number(text);
  if (Number.isInteger(count) && count >= 0) return count;
  console.error('Usage: npm run hard [-- READABLE] [--unreadable COUNT] [--from FIRST] [--keep FOLDER] [--list]');
  process.exit(2);
}
