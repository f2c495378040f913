/** Reads a case many times and counts. */
import type { PadQuantity } from '../../../src/core/measurement/quantities.ts';
import { readStrip } from '../../../src/core/reading/read-strip.ts';
import type { PadReading, RefusalCode, WarningCode } from '../../../src/core/reading/reading.ts';
import { addPhoto } from '../../../src/core/scale/add-photo.ts';
import { withPrintOf } from '../../../src/core/scale/carry-print.ts';
import type { StripScale } from '../../../src/core/scale/schema.ts';
import { withStripBase } from '../../../src/core/scale/strip-base.ts';
import { teachScale } from '../../../src/core/scale/teach.ts';
import { loadScale } from '../../../src/cli/scales.ts';
import { stepOf } from '../../pictures/read-samples.ts';
import { randomFrom, type Random } from '../../studio/random.ts';
import type { StudioStrip } from '../../studio/strips/strips.ts';
import type { Case } from './cases.ts';
import { type Owner, ownerOf, type Phone, phoneOf, takeShot, wordFor } from './world.ts';

/** Pads of one parameter, or of all. */
export interface Tally {
  /** Errors, in block steps and in the parameter's unit. */
  readonly steps: number[];
  readonly errors: number[];
  /** Widths of the intervals, block steps. */
  readonly widths: number[];
  held: number;
  /** Wrong by over a block, and the interval doesn't say so. */
  wrong: number;
  unmatched: number;
}

export interface Result {
  readonly name: string;
  readonly readings: number;
  refused: number;
  readonly refusals: Map<RefusalCode, number>;
  readonly warnings: Map<WarningCode, number>;
  /** Readings that the anchors led. */
  byAnchors: number;
  /** Readings with a pad that is wrong by over a block and confident. */
  wrongReadings: number;
  readonly all: Tally;
  readonly byParameter: Map<PadQuantity, Tally>;
}

export async function measure(one: Case, readings: number): Promise<Result> {
  const result: Result = {
    name: one.name,
    readings,
    refused: 0,
    refusals: new Map(),
    warnings: new Map(),
    byAnchors: 0,
    wrongReadings: 0,
    all: emptyTally(),
    byParameter: new Map(),
  };
  for (let seed = 1; seed <= readings; seed++) await readOnce(one, seed, result);
  return result;
}

async function readOnce(one: Case, seed: number, result: Result): Promise<void> {
  const random = randomFrom(seed * 7919);
  const strip = one.strips[seed % one.strips.length]!;
  const owner = one.print(ownerOf(strip, random.fork('owner'), one.causes), random.fork('print'));
  const phone = phoneOf(one.families, random.fork('phone'), one.causes);
  const told = one.lights > 0 ? taught(one, owner, phone, random) : await loadScale(strip.id);
  const reader = one.samePhone ? phone : phoneOf(one.families, random.fork('other phone'), one.causes);
  const card = one.sameCard
    ? owner
    : one.print(ownerOf(strip, random.fork('other card'), one.causes), random.fork('other print'));
  const scale = one.wayBack ? knowing(told, one, card, reader, random) : told;
  const light = one.causes.has('light') || one.lights === 0 ? random.fork('light') : random.fork('light 0');
  const shot = takeShot(card, reader, one.lightOf(light), random.fork('shot'), one.causes);
  const values = strip.pads.map(({ values: blocks }) => valueWithin(blocks, random));
  const reading = readStrip(shot.card, shot.strip(values), scale, 0);
  if (reading.outcome === 'refused') {
    result.refused++;
    for (const reason of reading.reasons) addTo(result.refusals, reason);
    return;
  }
  for (const warning of reading.warnings) addTo(result.warnings, warning);
  if (reading.correction === 'anchors') result.byAnchors++;
  const wrong = reading.pads.map((pad, i) => count(result, pad, strip.pads[i]!.values, values[i]!));
  if (wrong.some(Boolean)) result.wrongReadings++;
}

function addTo<Code>(counts: Map<Code, number>, code: Code): void {
  counts.set(code, (counts.get(code) ?? 0) + 1);
}

/** @returns whether the pad is wrong by over a block and confident */
function count(result: Result, pad: PadReading, blocks: readonly number[], truth: number): boolean {
  const own = result.byParameter.get(pad.quantity) ?? emptyTally();
  result.byParameter.set(pad.quantity, own);
  const tallies = [result.all, own];
  if (pad.value === null) {
    for (const tally of tallies) tally.unmatched++;
    return false;
  }
  const step = Math.abs(stepOf(blocks, pad.value) - stepOf(blocks, truth));
  const inMain = (pad.openBelow || truth >= pad.low!) && (pad.openAbove || truth <= pad.high!);
  const inOther = pad.alternative !== null && truth >= pad.alternative.low && truth <= pad.alternative.high;
  const held = inMain || inOther;
  for (const tally of tallies) {
    tally.steps.push(step);
    tally.errors.push(Math.abs(pad.value - truth));
    tally.widths.push(stepOf(blocks, pad.high!) - stepOf(blocks, pad.low!));
    if (held) tally.held++;
    else if (step > 1) tally.wrong++;
  }
  return !held && step > 1;
}

function taught(one: Case, printing: Owner, phone: Phone, random: Random): StripScale {
  const strip = one.causes.has('curve') ? printing.strip : denselyCharted(printing.strip);
  const owner = { ...printing, strip };
  const photos = Array.from({ length: one.lights }, (_, i) => {
    const light = one.causes.has('light') ? `light ${i}` : 'light 0';
    const lightOf = one.taughtIn?.[i] ?? one.lightOf;
    const spectrum = lightOf(random.fork(light));
    const shot = takeShot(owner, phone, spectrum, random.fork(`teaching ${i}`), one.causes);
    return { light: wordFor(spectrum), card: shot.card, blocks: shot.chart() };
  });
  const { lengthMm, widthMm } = strip;
  let scale = teachScale({ ...strip, strip: { lengthMm, widthMm }, pads: strip.pads }, photos, strip.id);
  if (one.base) {
    const lightOf = one.taughtIn?.[0] ?? one.lightOf;
    const shot = takeShot(owner, phone, lightOf(random.fork('light 0')), random.fork('dry strip'), one.causes);
    scale = withStripBase(scale, { card: shot.card, base: shot.dryBase() });
  }
  return one.greysAlone ? { ...scale, teachings: [] } : scale;
}

/** The scale once the new print lay beside the chart, or beside a strip whose values a drop kit had told. */
function knowing(scale: StripScale, one: Case, card: Owner, phone: Phone, random: Random): StripScale {
  const spectrum = one.lightOf(random.fork('light of the way back'));
  const shot = takeShot(card, phone, spectrum, random.fork('way back'), one.causes);
  const light = wordFor(spectrum);
  if (one.wayBack === 'chart') return addPhoto(scale, { light, card: shot.card, blocks: shot.chart() });
  const chance = random.fork('known values');
  const values = card.strip.pads.map(({ values: blocks }) => valueWithin(blocks, chance));
  const known = Object.fromEntries(card.strip.pads.map(({ parameter }, i) => [parameter, values[i]!]));
  const { pads } = shot.strip(values);
  return withPrintOf(scale, { light, card: shot.card, pads, values: known }).scale ?? scale;
}

/** The same strip with a chart of so many blocks that nothing is left to guess between them. */
function denselyCharted(strip: StudioStrip): StudioStrip {
  const between = (from: number, to: number) => Array.from({ length: 4 }, (_, i) => from + (i / 4) * (to - from));
  const dense = (values: readonly number[]) => [
    ...values.slice(1).flatMap((to, i) => between(values[i]!, to)),
    values.at(-1)!,
  ];
  return { ...strip, pads: strip.pads.map((pad) => ({ ...pad, values: dense(pad.values) })) };
}

/** Spread evenly over the chart rather than over the numbers. */
function valueWithin(blocks: StudioStrip['pads'][number]['values'], random: Random): number {
  const at = random.between(0.15, blocks.length - 1.15);
  const low = Math.floor(at);
  return blocks[low]! + (at - low) * (blocks[low + 1]! - blocks[low]!);
}

function emptyTally(): Tally {
  return { steps: [], errors: [], widths: [], held: 0, wrong: 0, unmatched: 0 };
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function percentile95(values: readonly number[]): number {
  return values.toSorted((one, two) => one - two)[Math.floor(0.95 * values.length)] ?? Number.NaN;
}
