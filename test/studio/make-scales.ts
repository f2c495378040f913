/** Writes the practice scales: `npm run scales`. */
import { writeFile } from 'node:fs/promises';
import { scaleOf } from './strips/scale.ts';
import { STRIPS } from './strips/strips.ts';

/** Pretty-printed, but with each block on one line. */
export function scaleText(scale: object): string {
  const text = JSON.stringify(scale, null, 2);
  return `${text.replace(/\[\s+(-?[\d.]+),\s+(-?[\d.]+),\s+(-?[\d.]+)\s+\]/g, '[$1, $2, $3]').replace(/\{\s+("value": [\d.]+),\s+("lab": \[[^\]]*\])\s+\}/g, '{ $1, $2 }')}\n`;
}

if (import.meta.main) {
  for (const strip of STRIPS) {
    await writeFile(new URL(`../../src/content/scales/${strip.id}.json`, import.meta.url), scaleText(scaleOf(strip)));
  }
}
