/** A sheet that nobody sees, drawn while a photo is looked for: the first takes several times as long as the second. */
import type { ReadOutcome } from '../../core/reading/reading.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { readingSheet } from './sheet.ts';

/** @param outcome of the drawn card, with the scale that it was drawn by */
export function rehearseSheet(outcome: ReadOutcome, scale: StripScale): void {
  readingSheet({
    ...{ outcome, scale, time: new Date(), sinceDipSeconds: null },
    flat: { data: new Uint8ClampedArray(4), width: 1, height: 1 },
    millis: { find: 0, read: 0 },
    planUrl: '',
    targets: {},
    ownTargets: false,
    // As of a practice photo, so that the logbook isn't asked.
    truth: { [scale.pads[0]!.parameter]: 0 },
    onHold: () => true,
    onDiscard: () => undefined,
    onAnother: null,
  });
}
