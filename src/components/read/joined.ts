/** What a sheet shows once another photo of its strip has been read. */
import { unkept } from '../../browser/unkept.ts';
import { readTogether } from '../../core/reading/several.ts';
import type { ReadOutcome } from '../../core/reading/reading.ts';
import type { Shown } from './incoming-photo.ts';
import type { SheetData } from './sheet.ts';

/** The first photo's card and time stay, and so does what was entered on the sheet. */
export function joined(shown: Shown, outcome: ReadOutcome): Shown & Pick<SheetData, 'before'> {
  const waiting = unkept();
  const isThisOne = waiting?.time === shown.time.toISOString();
  return {
    ...shown,
    outcome: readTogether([shown.outcome, outcome], shown.scale),
    ...(isThisOne && { before: waiting, sinceDipSeconds: waiting.sinceDipSeconds }),
  };
}
