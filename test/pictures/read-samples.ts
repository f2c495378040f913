/** Reads every sample photo and holds the result against its truth. */
import { readFile } from 'node:fs/promises';
import { decodePhoto } from '../../src/cli/decode.ts';
import { loadScale } from '../../src/cli/scales.ts';
import type { PadQuantity } from '../../src/core/measurement/quantities.ts';
import type { OffScale } from '../../src/core/measurement/measurement.ts';
import type { PadReading, RefusalCode, WarningCode } from '../../src/core/reading/reading.ts';
import type { StripScale } from '../../src/core/scale/schema.ts';
import { readPhoto } from '../../src/vision/read.ts';

const FOLDER = new URL('../../sample-images/', import.meta.url);

interface Truth {
  readonly photos: readonly {
    readonly file: string;
    readonly scale: string;
    readonly values: Readonly<Partial<Record<PadQuantity, number>>>;
    readonly offScale: Readonly<Partial<Record<PadQuantity, 'below' | 'above'>>>;
  }[];
  readonly refused: readonly { readonly file: string; readonly scale: string; readonly refused: RefusalCode }[];
}

export interface PadReport {
  readonly parameter: PadQuantity;
  readonly truth: number;
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Error in the pad's own unit and in steps between neighbouring blocks; null beyond the scale or unmatched. */
  readonly error: number | null;
  readonly steps: number | null;
  /** The interval holds the truth (an open end holds everything beyond it). */
  readonly holds: boolean;
  readonly truthOffScale: OffScale;
  readonly offScale: OffScale;
}

export interface PhotoReport {
  readonly file: string;
  readonly scale: string;
  readonly outcome: 'read' | 'refused';
  readonly reasons: readonly RefusalCode[];
  readonly warnings: readonly WarningCode[];
  readonly pads: readonly PadReport[];
}

export interface RefusalReport {
  readonly file: string;
  readonly expected: RefusalCode;
  readonly got: readonly RefusalCode[];
}

export interface SampleReport {
  readonly note: string;
  readonly photos: readonly PhotoReport[];
  readonly refused: readonly RefusalReport[];
}

export async function readSamples(): Promise<SampleReport> {
  const truth = JSON.parse(await readFile(new URL('truth.json', FOLDER), 'utf8')) as Truth;
  const read = async (file: string, scale: StripScale) => {
    const pixels = await decodePhoto(await readFile(new URL(file, FOLDER)));
    if (!pixels) throw new Error(`${file} could not be opened`);
    return readPhoto(pixels, scale).reading;
  };
  const photos: PhotoReport[] = [];
  for (const { file, scale: id, values, offScale } of truth.photos) {
    const scale = await loadScale(id);
    const reading = await read(file, scale);
    photos.push({
      file,
      scale: id,
      outcome: reading.outcome,
      reasons: reading.outcome === 'refused' ? reading.reasons : [],
      warnings: reading.outcome === 'read' ? reading.warnings : [],
      pads:
        reading.outcome === 'read'
          ? reading.pads.map((pad) => reportPad(pad, scale, values[pad.quantity]!, offScale[pad.quantity] ?? null))
          : [],
    });
  }
  const refused: RefusalReport[] = [];
  for (const { file, scale, refused: expected } of truth.refused) {
    const reading = await read(file, await loadScale(scale));
    refused.push({ file, expected, got: reading.outcome === 'refused' ? reading.reasons : [] });
  }
  return { note: 'Simulated pictures. Written by `npm run report`; compared by test.', photos, refused };
}

function reportPad(pad: PadReading, scale: StripScale, truth: number, truthOffScale: OffScale): PadReport {
  const blocks = scale.pads.find(({ parameter }) => parameter === pad.quantity)!.blocks.map(({ value }) => value);
  const comparable = pad.value !== null && truthOffScale === null;
  const aboveLow = pad.low !== null && (pad.openBelow || truth >= pad.low);
  const belowHigh = pad.high !== null && (pad.openAbove || truth <= pad.high);
  const inAlternative = pad.alternative !== null && truth >= pad.alternative.low && truth <= pad.alternative.high;
  return {
    parameter: pad.quantity,
    truth,
    value: round(pad.value),
    low: round(pad.low),
    high: round(pad.high),
    error: comparable ? round(pad.value! - truth) : null,
    steps: comparable ? round(stepOf(blocks, pad.value!) - stepOf(blocks, truth)) : null,
    holds: (aboveLow && belowHigh) || inAlternative,
    truthOffScale,
    offScale: pad.offScale,
  };
}

/** Place among the blocks: 2.5 is half way between the third and the fourth. */
export function stepOf(blocks: readonly number[], value: number): number {
  let i = 0;
  while (i < blocks.length - 2 && value > blocks[i + 1]!) i++;
  return i + (value - blocks[i]!) / (blocks[i + 1]! - blocks[i]!);
}

function round<T extends number | null>(value: T): T {
  return (value === null ? null : Number(value.toPrecision(4))) as T;
}
