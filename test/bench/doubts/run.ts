// `npm run doubts [-- PHOTOS]`: what each trouble does to readings as it grows, and what is said about it.
// A bench, not a test: the limits in src/core/reading/judge-*.ts were drawn from its table.
import { loadScale } from '../../../src/cli/scales.ts';
import type { Reading } from '../../../src/core/reading/reading.ts';
import { readPhoto } from '../../../src/vision/read.ts';
import { stepOf } from '../../pictures/read-samples.ts';
import { renderThroughJpeg } from '../../studio/render.ts';
import type { Scene } from '../../studio/scene/types.ts';
import { STRIPS, type StudioStrip } from '../../studio/strips/strips.ts';
import { type Change, troubledScene, TROUBLES } from '../../studio/troubles.ts';

const PHOTOS = Number(process.argv[2] ?? 8);
if (!Number.isInteger(PHOTOS) || PHOTOS < 1) {
  console.error('Usage: npm run doubts [-- PHOTOS], a whole number of photos for each line of the table');
  process.exit(2);
}

const growing = (name: string, trouble: (strength: number) => Change, strengths: readonly number[]) =>
  strengths.map((strength) => [`${name} ${strength}`, trouble(strength)] as const);

const LINES: readonly (readonly [string, Change])[] = [
  ['nothing wrong', TROUBLES.none()],
  ...growing('shadow of depth', TROUBLES.shadow, [0.1, 0.2, 0.35, 0.5, 0.7]),
  ...growing('light falls by', TROUBLES.fall, [0.1, 0.2, 0.3, 0.45]),
  ...growing('second light rises by', TROUBLES.secondLight, [0.2, 0.4, 0.8, 1.2]),
  ...growing('glare spot', TROUBLES.glareSpot, [0.05, 0.15, 0.3, 0.6]),
  ...growing('glare over a pad', TROUBLES.glareOver, [0.05, 0.15, 0.3, 0.6]),
  ...growing('paper at', TROUBLES.exposure, [0.85, 0.95, 1.05, 1.2, 1.5]),
  ...growing('dark, 1 in', TROUBLES.dark, [3, 6, 12, 20]),
  ...growing('blur of px', TROUBLES.blur, [1, 2, 3, 4, 5, 6]),
  ...growing('dye of one pad times', TROUBLES.badDye, [0.4, 1.5, 2.5]),
  ...growing('evened out by', TROUBLES.localTone, [0.1, 0.3, 0.6]),
  ...(['faded', 'loud', 'cold', 'faded-brown', 'grey'] as const).map(
    (filter) => [`filter ${filter}`, TROUBLES.filter(filter)] as const,
  ),
  ['dry', TROUBLES.dry(1)],
  ['face down', TROUBLES.faceDown()],
  ['black-only card', TROUBLES.blackOnly()],
];

console.log(
  '| trouble | read | block steps: mean, 95 % | intervals holding | width, steps | wrong by over a block and confident | said |',
);
console.log('| --- | --- | --- | --- | --- | --- | --- |');
for (const [name, change] of LINES) console.log(await line(name, change));

async function line(name: string, change: Change): Promise<string> {
  const pads: PadResult[] = [];
  const said = new Map<string, number>();
  let read = 0;
  for (let seed = 1; seed <= PHOTOS; seed++) {
    const strip = STRIPS[seed % STRIPS.length]!;
    const scene = troubledScene(6000 + seed, strip, change);
    const { reading } = readPhoto(await renderThroughJpeg(scene), await loadScale(strip.id));
    const codes = reading.outcome === 'read' ? reading.warnings : reading.reasons.map((code) => code.toUpperCase());
    for (const code of codes) said.set(code, (said.get(code) ?? 0) + 1);
    if (reading.outcome !== 'read') continue;
    read++;
    pads.push(...resultsOf(reading, strip, scene));
  }
  const steps = pads.map(({ step }) => step);
  return `| ${[
    name,
    `${read} of ${PHOTOS}`,
    `${mean(steps).toFixed(2)}, ${percentile(steps).toFixed(2)}`,
    `${pads.filter(({ holds }) => holds).length} of ${pads.length}`,
    mean(pads.map(({ width }) => width)).toFixed(2),
    pads.filter(({ step, holds }) => step > 1 && !holds).length,
    [...said].map(([code, count]) => `${code} ${count}`).join(', '),
  ].join(' | ')} |`;
}

interface PadResult {
  readonly step: number;
  readonly width: number;
  readonly holds: boolean;
}

function resultsOf(
  { pads }: Extract<Reading, { outcome: 'read' }>,
  strip: StudioStrip,
  { strip: laid }: Scene,
): PadResult[] {
  return pads.flatMap(({ quantity, value, low, high, alternative, openBelow, openAbove }, i): PadResult[] => {
    if (value === null) return [];
    const blocks = strip.pads[i]!.values;
    const truth = laid!.values[quantity]!;
    const main = (openBelow || truth >= low!) && (openAbove || truth <= high!);
    const other = alternative !== null && truth >= alternative.low && truth <= alternative.high;
    return [
      {
        step: Math.abs(stepOf(blocks, value) - stepOf(blocks, truth)),
        width: stepOf(blocks, high!) - stepOf(blocks, low!),
        holds: main || other,
      },
    ];
  });
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function percentile(values: readonly number[]): number {
  return values.toSorted((one, two) => one - two)[Math.floor(0.95 * values.length)] ?? Number.NaN;
}
