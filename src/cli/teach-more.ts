/** A scale that is there gets to know another light, or another print of the card. */
import { basename } from 'node:path';
import type { PadQuantity } from '../core/measurement/quantities.ts';
import { addPhoto } from '../core/scale/add-photo.ts';
import { MIN_KNOWN_PADS, withPrintOf } from '../core/scale/carry-print.ts';
import type { StripScale } from '../core/scale/schema.ts';
import type { TaughtPhoto } from '../core/scale/teach.ts';
import { readPhoto } from '../vision/read.ts';
import { refusalMessage } from '../words/reading.ts';
import { photoAt, PhotoRefused, sentences } from './refused.ts';
import type { Blocks } from './teach-blocks.ts';

export type KnownValues = Partial<Record<PadQuantity, number>>;

/** "ph=7.4,total-alkalinity=90". @throws Error with a sentence */
export function knownValues(text: string, scale: StripScale): KnownValues {
  const pairs = text.split(',').map((part): [PadQuantity, number] => {
    const [name = '', typed = ''] = part.split('=').map((side) => side.trim());
    const pad = scale.pads.find(({ parameter }) => parameter === name);
    if (!pad) throw new Error(`--values: this scale has no pad '${name}', only ${namesIn(scale)}`);
    const [from, to] = [pad.blocks[0]!.value, pad.blocks.at(-1)!.value];
    const value = Number(typed);
    if (typed === '' || !(value >= from && value <= to)) {
      throw new Error(`--values: ${name} takes a number on its chart, ${from} to ${to}, not '${typed}'`);
    }
    return [pad.parameter, value];
  });
  if (new Set(pairs.map(([name]) => name)).size >= MIN_KNOWN_PADS) return Object.fromEntries(pairs);
  throw new Error(`--values: give ${MIN_KNOWN_PADS} values or more, such as ph=7.4,total-alkalinity=90`);
}

function namesIn({ pads }: StripScale): string {
  return pads.map(({ parameter }) => parameter).join(', ');
}

/** @throws PhotoRefused when no strip can be read in the photo, Error when the scale was never taught */
export async function withKnownStrip(scale: StripScale, photo: string, values: KnownValues) {
  const { pixels } = await photoAt(photo);
  const { reading, seen } = readPhoto(pixels, scale);
  if (reading.outcome === 'refused' || !seen) {
    const [code] = reading.outcome === 'refused' ? reading.reasons : [];
    throw new PhotoRefused(`${photo}: ${code ? sentences(refusalMessage(code)) : 'no strip was found'}`);
  }
  const carried = withPrintOf(scale, { light: basename(photo), ...seen, values });
  if (carried.scale) return carried.scale;
  throw new Error('--add takes a scale that was taught with a photo of its chart');
}

/** @throws Error with a sentence when the chart isn't the scale's */
export function withCharts(scale: StripScale, blocks: Blocks, photos: readonly TaughtPhoto[]): StripScale {
  const charts = blocks.pads ?? blocks.photos![0]!.pads;
  const rows = scale.pads.map(({ parameter, blocks: own }) => {
    const at = blocks.strip.pads.findIndex((pad) => pad.parameter === parameter);
    const values = charts.find((chart) => chart.parameter === parameter)?.blocks.map(({ value }) => value) ?? [];
    const order = own.map(({ value }) => values.indexOf(value));
    if (at < 0 || order.includes(-1) || values.length !== own.length) {
      throw new Error(`the chart's ${parameter} isn't that of the scale: ${own.map(({ value }) => value).join(', ')}`);
    }
    return { at, order };
  });
  const sorted = photos.map((photo) => ({
    ...photo,
    blocks: rows.map(({ at, order }) => order.map((i) => photo.blocks[at]![i]!)),
  }));
  return sorted.reduce(addPhoto, scale);
}
