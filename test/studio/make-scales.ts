/** Writes the practice scales: `npm run scales`. */
import { writeFile } from 'node:fs/promises';
import { scaleOf, scaleText } from './strips/scale.ts';
import { STRIPS } from './strips/strips.ts';

for (const strip of STRIPS) {
  const file = new URL(`../../src/content/scales/${strip.id}.json`, import.meta.url);
  await writeFile(file, scaleText(scaleOf(strip)));
}
