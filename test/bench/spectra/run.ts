// `npm run spectra -- FOLDER` (or SPECTRA=FOLDER npm run spectra): the corrections that readings rest on, by the
// greys and by the anchors, over measured cameras, lights and reflectances. A bench, not a test.
import type { Pair } from '../../../src/core/colour/anchors.ts';
import { ciede2000 } from '../../../src/core/colour/difference.ts';
import { linearToLab, type Triple } from '../../../src/core/colour/lab.ts';
import { solveSymmetric } from '../../../src/core/math/least-squares.ts';
import type { Sensor } from '../../studio/camera/sensors.ts';
import { wantedSrgb } from '../../studio/camera/colour.ts';
import type { Spectrum } from '../../studio/spectra/wavelengths.ts';
import { photoThrough } from './photo.ts';
import { fitMap } from '../matrix-map.ts';
import { FILES, type MeasuredSpectra, readSpectra } from './tables.ts';

/** Lights that a card and a strip may lie in: daylight of three phases, an incandescent lamp, a tube, two LEDs. */
const LIGHTS = ['D50', 'D65', 'D75', 'A', 'FL11', 'LED-B1', 'LED-B3'] as const;
const KINDS = ['linear', 'root-polynomial'] as const;

type Terms = (linear: Triple) => number[];

const LINEAR: Terms = ([r, g, b]) => [r, g, b];
const ROOT: Terms = ([r, g, b]) => [r, g, b, Math.sqrt(r * g), Math.sqrt(g * b), Math.sqrt(r * b)];
const PLAIN: Terms = ([r, g, b]) => [r, g, b, r * r, g * g, b * b, r * g, g * b, r * b];

const folder = process.argv[2] ?? process.env['SPECTRA'];
const spectra = folder ? openFolder(folder) : null;
if (!spectra) {
  console.error(
    `Usage: npm run spectra -- FOLDER\nFOLDER holds tables of measured spectra (a column of wavelengths in nm, then one column each): ${Object.values(FILES).join(', ')}`,
  );
  process.exit(2);
}

head('Between two lights: a camera’s photo under one light led to its photo under another');
const { phones, cameras, checker, patches } = spectra;
betweenLights(`${phones.size} phones, 24 patches`, spectra, [...phones.values()], checker);
betweenLights(`${phones.size} phones, 190 patches`, spectra, [...phones.values()], patches);
betweenLights(`${cameras.size} cameras, 24 patches`, spectra, [...cameras.values()], checker);

head('Characterisation under D65, as published: a camera’s photo led to the colours of the standard observer');
for (const [name, reflectances] of [
  ['24 patches', spectra.checker],
  ['190 patches', spectra.patches],
] as const) {
  const sensors = [...spectra.phones.values(), ...spectra.cameras.values()];
  characterise(`${sensors.length} phones and cameras, ${name}`, spectra, sensors, reflectances);
}
console.log(`
Published: root polynomials scale with exposure and improve on linear fits, on real and synthetic data (Finlayson,
Mackiewicz & Hurlbert, IEEE Trans. Image Process. 24:1460, 2015, abstract; the same authors, CIC 19, 2011: plain
polynomials can cut the error by more than 50 % but depend on exposure). Kucuk, Finlayson, Mantiuk & Ashraf (J. Imaging
9:214, 2023, abstract): root polynomials beat a neural network, which beats linear least squares; linear and
root-polynomial fits keep their quality when the exposure changes.`);

function openFolder(path: string): MeasuredSpectra | null {
  try {
    return readSpectra(path);
  } catch (error) {
    console.error((error as Error).message);
    return null;
  }
}

function head(title: string): void {
  console.log(`\n${title}. CIEDE2000 by leave-one-out: mean, 95 %.\n`);
  console.log('| over | correction | mean | 95 % |\n| --- | --- | --- | --- |');
}

function line(over: string, correction: string, errors: readonly number[]): void {
  const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
  const p95 = errors.toSorted((one, other) => one - other)[Math.floor(0.95 * errors.length)]!;
  console.log(`| ${over} | ${correction} | ${mean.toFixed(2)} | ${p95.toFixed(2)} |`);
}

function betweenLights(
  over: string,
  { lights }: MeasuredSpectra,
  sensors: readonly Sensor[],
  reflectances: readonly Spectrum[],
): void {
  const errors = {
    greys: [] as number[],
    linear: [] as number[],
    'root-polynomial': [] as number[],
    best: [] as number[],
  };
  for (const sensor of sensors) {
    const photos = LIGHTS.map((light) => photoThrough(sensor, lights.get(light)!, reflectances));
    for (const from of photos) {
      for (const to of photos) {
        if (from === to) continue;
        const pairs = from.map((colour, i): Pair => ({ from: colour, to: to[i]! }));
        const without = pairs.map((pair) => miss(pair, (linear) => linear));
        const [linear, root] = KINDS.map((kind) => leaveOneOut(pairs, (rest) => fitMap(kind, rest)));
        errors.greys.push(...without);
        errors.linear.push(...linear!);
        errors['root-polynomial'].push(...root!);
        errors.best.push(...[without, linear!, root!].reduce((best, one) => (rms(one) < rms(best) ? one : best)));
      }
    }
  }
  line(over, 'greys alone', errors.greys);
  line(over, 'greys, then linear', errors.linear);
  line(over, 'greys, then root-polynomial', errors['root-polynomial']);
  line(over, 'greys, then whichever is best by leave-one-out', errors.best);
}

function characterise(
  over: string,
  { lights }: MeasuredSpectra,
  sensors: readonly Sensor[],
  reflectances: readonly Spectrum[],
): void {
  const light = lights.get('D65')!;
  const wanted = reflectances.map((reflectance) => wantedSrgb(reflectance, light));
  const kinds = { linear: LINEAR, 'root-polynomial': ROOT, 'plain polynomial': PLAIN } as const;
  for (const [name, terms] of Object.entries(kinds)) {
    const errors: number[] = [];
    const halved: number[] = [];
    for (const sensor of sensors) {
      const pairs = photoThrough(sensor, light, reflectances).map((from, i): Pair => ({ from, to: wanted[i]! }));
      errors.push(...leaveOneOut(pairs, (rest) => leastSquares(terms, rest)));
      const map = leastSquares(terms, pairs);
      halved.push(
        ...pairs.map(({ from, to }) => miss({ from, to }, (linear) => doubled(map(doubled(linear, 0.5)), 2))),
      );
    }
    line(over, `${name}, least squares`, errors);
    line(over, `${name}, fitted in full light, used in half of it (not left out)`, halved);
  }
}

function doubled([r, g, b]: Triple, factor: number): Triple {
  return [factor * r, factor * g, factor * b];
}

function miss({ from, to }: Pair, map: (linear: Triple) => Triple): number {
  return ciede2000(linearToLab(map(from)), linearToLab(to));
}

function leaveOneOut(pairs: readonly Pair[], fit: (rest: readonly Pair[]) => (linear: Triple) => Triple): number[] {
  return pairs.map((pair, left) => miss(pair, fit(pairs.filter((_, i) => i !== left))));
}

function rms(errors: readonly number[]): number {
  return Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
}

/** Ordinary least squares as in the papers: no weights, and a ridge only against singular matrices. */
function leastSquares(terms: Terms, pairs: readonly Pair[]): (linear: Triple) => Triple {
  const seen = pairs.map(({ from }) => terms(from));
  const n = seen[0]!.length;
  const normal = Array.from({ length: n }, (_, i) =>
    Array.from({ length: n }, (__, j) => seen.reduce((sum, row) => sum + row[i]! * row[j]!, i === j ? 1e-9 : 0)),
  );
  const rows = ([0, 1, 2] as const).map((c) =>
    solveSymmetric(
      normal,
      Array.from({ length: n }, (_, i) => seen.reduce((sum, row, k) => sum + row[i]! * pairs[k]!.to[c], 0)),
    ),
  );
  return (linear) => {
    const now = terms(linear);
    return rows.map((row) => row.reduce((sum, factor, i) => sum + factor * now[i]!, 0)) as unknown as Triple;
  };
}
