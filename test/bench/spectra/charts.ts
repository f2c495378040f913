// `node test/bench/spectra/charts.ts FOLDER [--plain] > CHARTS.csv`: photos of a 24-patch chart by the studio's phones, as code values in the
// form of test/reference/real-chart-photos.csv, for `npm run real -- --photos CHARTS.csv`: are simulated phones as bad as real ones?
import { parseArgs } from 'node:util';
import { randomFrom } from '../../studio/random.ts';
import { CALIBRATION_PHONES } from '../accuracy/cases.ts';
import { EVERYTHING, without } from '../accuracy/causes.ts';
import { captureWith, everydayLight, phoneOf } from '../accuracy/world.ts';
import { evenly } from '../../studio/spectra/lights.ts';
import { readSpectra } from './tables.ts';

const PHONES = 8;
const PHOTOS = 5;
/** The chart lies on the card's place: six columns of 24 mm, four rows of 24 mm. */
const placeOf = (patch: number) => [14 + 24 * (patch % 6), 16 + 24 * Math.floor(patch / 6)] as const;

const { values, positionals } = parseArgs({ allowPositionals: true, options: { plain: { type: 'boolean' } } });
if (!positionals[0]) {
  console.error('Usage: node test/bench/spectra/charts.ts FOLDER [--plain] > CHARTS.csv');
  process.exit(2);
}
const causes = values.plain ? without('turning') : EVERYTHING;
const { checker } = readSpectra(positionals[0]);
console.log('photo,source,camera_or_unknown,light_or_unknown,patch,r,g,b,clipped,px');
for (let phone = 0; phone < PHONES; phone++) {
  const random = randomFrom(90_001 + phone);
  const camera = phoneOf(CALIBRATION_PHONES, random.fork('phone'), causes);
  for (let photo = 1; photo <= PHOTOS; photo++) {
    const shot = random.fork(`photo ${photo}`);
    const capture = captureWith(camera, evenly(everydayLight(shot)), shot, causes);
    checker.forEach((reflectance, i) => {
      const rgb = capture(reflectance, ...placeOf(i), 0).map((level) => 255 * Math.min(1, Math.max(0, level)));
      const clipped = rgb.some((level) => level > 250 || level < 3) ? 1 : 0;
      const cells = rgb.map((level) => level.toFixed(1)).join(',');
      console.log(
        `S${'ABCDEFGH'[phone]}${photo},simulated,phone ${phone + 1},everyday,${i + 1},${cells},${clipped},100`,
      );
    });
  }
}
