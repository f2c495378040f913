/** Answers as a table: a row for every value, or one for a photo that has none. */
import { basename } from 'node:path';
import { markText } from '../../core/log/csv.ts';
import { unitOf } from '../../core/measurement/quantities.ts';
import type { PadReading } from '../../core/reading/reading.ts';
import { warningMessage } from '../../words/reading.ts';
import { padValues } from './lines.ts';
import type { PhotoAnswer } from './reader.ts';

export const TABLE_HEAD = [
  'photo',
  'path',
  'outcome',
  'parameter',
  'unit',
  'value',
  'low',
  'high',
  'alternativeValue',
  'alternativeLow',
  'alternativeHigh',
  'offScale',
  'openBelow',
  'openAbove',
  'deltaE',
  'correction',
  'codes',
  'message',
] as const;

type Cells = Partial<Record<(typeof TABLE_HEAD)[number], string | number | boolean | null | undefined>>;

/** @param answer without a path: what all photos tell together */
export function tableRows({ path, reading, reasons }: Pick<PhotoAnswer, 'path' | 'reading' | 'reasons'>): string[][] {
  const shared: Cells = { photo: basename(path), path, outcome: path === '' ? 'together' : reading.outcome };
  if (reading.outcome !== 'read') {
    const told = {
      codes: listed(reasons.map(({ code }) => code)),
      message: listed(reasons.map(({ message }) => message)),
    };
    return [row({ ...shared, ...told })];
  }
  const { correction, warnings } = reading;
  const messages = warnings.map((code) => `${warningMessage(code).wrong} ${warningMessage(code).remedy}`);
  const told = { correction, codes: listed(warnings), message: listed(messages) };
  return reading.pads.map((pad) => row({ ...shared, ...told, ...padCells(pad) }));
}

function padCells(pad: PadReading): Cells {
  const { value, low, high, alternative, deltaE } = padValues(pad);
  return {
    parameter: pad.quantity,
    unit: unitOf(pad.quantity),
    value,
    low,
    high,
    alternativeValue: alternative?.value,
    alternativeLow: alternative?.low,
    alternativeHigh: alternative?.high,
    offScale: pad.offScale,
    openBelow: pad.openBelow,
    openAbove: pad.openAbove,
    deltaE,
  };
}

function row(cells: Cells): string[] {
  return TABLE_HEAD.map((name) => {
    const cell = cells[name];
    return typeof cell === 'string' ? markText(cell) : String(cell ?? '');
  });
}

function listed(texts: readonly string[]): string {
  return texts.join(' ');
}
