// `npm run --silent real -- [--photos CSV] [--reference CSV]`: the colour map on real photos of a 24-patch chart, one JSON
// object a line for each chart with more than one photo, and one for all against the published colours. A bench, not a test.
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { tableFrom } from '../../reference/read-table.ts';
import { compareOn } from './compare.ts';

const own = (name: string) => new URL(`../../reference/${name}`, import.meta.url);
const open = (file: string | URL) => tableFrom(readFileSync(file, 'utf8'));

try {
  const { values } = parseArgs({ options: { photos: { type: 'string' }, reference: { type: 'string' } } });
  const photos = open(values.photos ?? own('real-chart-photos.csv'));
  const reference = open(values.reference ?? own('chart-24-lab.csv'));
  for (const line of compareOn(photos, reference)) console.log(JSON.stringify(line));
} catch (error) {
  console.error((error as Error).message);
  console.error('Usage: npm run --silent real -- [--photos CSV] [--reference CSV]');
  process.exit(2);
}
