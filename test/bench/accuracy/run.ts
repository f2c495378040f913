// `npm run accuracy [-- READINGS]`: how well strips are read over simulated phones, printers, lights and waters.
// A bench, not a test: it prints a table and judges nothing.
import { readStrip } from '../../../src/core/reading/read-strip.ts';
import type { StripScale } from '../../../src/core/scale/schema.ts';
import { teachScale } from '../../../src/core/scale/teach.ts';
import { loadScale } from '../../../src/cli/scales.ts';
import { stepOf } from '../../pictures/read-samples.ts';
import { FAMILY_NAMES, type FamilyName } from '../../studio/camera/sensors.ts';
import { randomFrom, type Random } from '../../studio/random.ts';
import { STRIPS, type StudioStrip } from '../../studio/strips/strips.ts';
import { everydayLight, type Owner, ownerOf, type Phone, phoneOf, takeShot } from './world.ts';

const READINGS = Number(process.argv[2] ?? 400);
if (!Number.isInteger(READINGS) || READINGS < 1) {
  console.error('Usage: npm run accuracy [-- READINGS], a whole number of readings for each line of the table');
  process.exit(2);
}

/** Priors and intervals were set on the first three; the other two families were kept out. */
const TUNED: readonly FamilyName[] = FAMILY_NAMES.slice(0, 3);
const KEPT_OUT: readonly FamilyName[] = FAMILY_NAMES.slice(3);

interface Case {
  readonly name: string;
  readonly families: readonly FamilyName[];
  /** Teaching photos; 0 reads with the practice scale, by the greys alone. */
  readonly lights: number;
  readonly samePhone: boolean;
  readonly sameCard: boolean;
}

const everyday = { families: TUNED, lights: 2, samePhone: true, sameCard: true };
const CASES: readonly Case[] = [
  { ...everyday, name: 'practice scale, greys alone', lights: 0 },
  { ...everyday, name: 'taught in one light', lights: 1 },
  { ...everyday, name: 'taught in two lights' },
  { ...everyday, name: 'taught in three lights', lights: 3 },
  { ...everyday, name: 'two lights, another phone', samePhone: false },
  { ...everyday, name: 'two lights, another print of the card', sameCard: false },
  { ...everyday, name: 'two lights, phones kept out of tuning', families: KEPT_OUT },
];

interface Tally {
  readonly steps: number[];
  readonly ph: number[];
  readonly widths: number[];
  held: number;
  wrong: number;
  unmatched: number;
  refused: number;
}

console.log(
  '| case | pH: mean, 95 % | all pads, block steps: mean, 95 % | intervals holding | width, steps | wrong by over a block and confident | not matched, refused |',
);
console.log('| --- | --- | --- | --- | --- | --- | --- |');
for (const one of CASES) console.log(await line(one));

async function line(one: Case): Promise<string> {
  const tally: Tally = { steps: [], ph: [], widths: [], held: 0, wrong: 0, unmatched: 0, refused: 0 };
  for (let seed = 1; seed <= READINGS; seed++) await readOnce(one, seed, tally);
  const share = (100 * tally.held) / tally.steps.length;
  return `| ${[
    one.name,
    `${mean(tally.ph).toFixed(3)}, ${percentile(tally.ph).toFixed(2)}`,
    `${mean(tally.steps).toFixed(3)}, ${percentile(tally.steps).toFixed(2)}`,
    `${share.toFixed(1)} %`,
    mean(tally.widths).toFixed(2),
    `${tally.wrong} of ${tally.steps.length}`,
    `${tally.unmatched}, ${tally.refused}`,
  ].join(' | ')} |`;
}

async function readOnce(one: Case, seed: number, tally: Tally): Promise<void> {
  const random = randomFrom(seed * 7919);
  const strip = STRIPS[seed % STRIPS.length]!;
  const owner = ownerOf(strip, random.fork('owner'));
  const phone = phoneOf(one.families, random.fork('phone'));
  const scale = one.lights > 0 ? taught(owner, phone, one.lights, random) : await loadScale(strip.id);
  const reader = one.samePhone ? phone : phoneOf(one.families, random.fork('other phone'));
  const card = one.sameCard ? owner : ownerOf(strip, random.fork('other card'));
  const shot = takeShot(card, reader, everydayLight(random.fork('light')), random.fork('shot'));
  const values = strip.pads.map(({ values: blocks }) => valueWithin(blocks, random));
  const reading = readStrip(shot.card, shot.strip(values), scale, 0);
  if (reading.outcome === 'refused') {
    tally.refused++;
    return;
  }
  reading.pads.forEach((pad, i) => {
    if (pad.value === null) {
      tally.unmatched++;
      return;
    }
    const blocks = strip.pads[i]!.values;
    const truth = values[i]!;
    const step = Math.abs(stepOf(blocks, pad.value) - stepOf(blocks, truth));
    const inMain = (pad.openBelow || truth >= pad.low!) && (pad.openAbove || truth <= pad.high!);
    const inOther = pad.alternative !== null && truth >= pad.alternative.low && truth <= pad.alternative.high;
    tally.steps.push(step);
    tally.widths.push(stepOf(blocks, pad.high!) - stepOf(blocks, pad.low!));
    if (pad.parameter === 'ph') tally.ph.push(Math.abs(pad.value - truth));
    if (inMain || inOther) tally.held++;
    else if (step > 1) tally.wrong++;
  });
}

function taught(owner: Owner, phone: Phone, lights: number, random: Random): StripScale {
  const { strip } = owner;
  const photos = Array.from({ length: lights }, (_, i) => {
    const shot = takeShot(owner, phone, everydayLight(random.fork(`light ${i}`)), random.fork(`teaching ${i}`));
    return { light: `light ${i + 1}`, card: shot.card, blocks: shot.chart() };
  });
  return teachScale({ ...strip, strip, pads: strip.pads }, photos, strip.id);
}

/** Spread evenly over the chart rather than over the numbers. */
function valueWithin(blocks: StudioStrip['pads'][number]['values'], random: Random): number {
  const at = random.between(0.15, blocks.length - 1.15);
  const low = Math.floor(at);
  return blocks[low]! + (at - low) * (blocks[low + 1]! - blocks[low]!);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function percentile(values: readonly number[]): number {
  return values.toSorted((one, two) => one - two)[Math.floor(0.95 * values.length)] ?? Number.NaN;
}
