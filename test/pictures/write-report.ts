// `npm run report`: reads every sample photo again and writes report.json, to be looked at in review.
import { writeFile } from 'node:fs/promises';
import { readSamples } from './read-samples.ts';

const report = await readSamples();
await writeFile(new URL('report.json', import.meta.url), `${JSON.stringify(report, null, 2)}\n`);

const pads = report.photos.flatMap((photo) => photo.pads);
const steps = pads.flatMap(({ steps }) => (steps === null ? [] : [Math.abs(steps)]));
const held = pads.filter(({ holds }) => holds).length;
console.log(`${report.photos.length} photos, ${pads.length} pads`);
console.log(`mean error ${(steps.reduce((sum, step) => sum + step, 0) / steps.length).toFixed(3)} block steps`);
console.log(`largest ${Math.max(...steps).toFixed(2)} block steps; ${held} of ${pads.length} intervals hold the truth`);
