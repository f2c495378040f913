/** An answer as a line of JSON. Scripts rely on its keys: more may come, none goes. */
import { basename } from 'node:path';
import { unitOf } from '../../core/measurement/quantities.ts';
import type { PadReading, ReadOutcome } from '../../core/reading/reading.ts';
import { warningMessage } from '../../words/reading.ts';
import type { PhotoAnswer } from './reader.ts';

export function answerLine({ path, reading, reasons, millis }: PhotoAnswer): object {
  const shared = { photo: basename(path), path, outcome: reading.outcome, reasons };
  const rounded = { decode: round(millis.decode, 1), find: round(millis.find, 1), read: round(millis.read, 1) };
  if (reading.outcome === 'read') return { ...shared, ...told(reading), millis: rounded };
  const cards = reading.cards?.map((corners) => corners.map(([x, y]) => [round(x, 4), round(y, 4)]));
  return {
    ...shared,
    ...(cards && { cards }),
    warnings: [],
    places: reading.places,
    correction: null,
    pads: [],
    millis: rounded,
  };
}

export function togetherLine(reading: ReadOutcome, photos: number): object {
  return { together: photos, ...told(reading) };
}

/** Rounded for those who read them. */
export function padValues({ value, low, high, alternative, deltaE }: PadReading) {
  return {
    value: round(value, 3),
    low: round(low, 3),
    high: round(high, 3),
    alternative: alternative && {
      value: round(alternative.value, 3),
      low: round(alternative.low, 3),
      high: round(alternative.high, 3),
    },
    deltaE: round(deltaE, 2),
  };
}

function told({ pads: seen, correction, places, warnings: codes }: ReadOutcome) {
  const pads = seen.map((pad) => {
    const { value, low, high, alternative, deltaE } = padValues(pad);
    return {
      parameter: pad.quantity,
      unit: unitOf(pad.quantity),
      value,
      low,
      high,
      alternative,
      offScale: pad.offScale,
      openBelow: pad.openBelow,
      openAbove: pad.openAbove,
      deltaE,
    };
  });
  const warnings = codes.map((code) => {
    const { wrong, remedy } = warningMessage(code);
    return { code, message: `${wrong} ${remedy}` };
  });
  return { warnings, places, correction, pads };
}

function round<T extends number | null>(value: T, digits: number): T {
  return (value === null ? null : Number(value.toFixed(digits))) as T;
}
