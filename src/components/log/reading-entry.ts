/** From the reading sheet to an entry of the logbook. */
import { newId, zoneMinutesAt } from '../../browser/store/ids.ts';
import { withoutMetadata } from '../../core/log/picture.ts';
import type { LoggedValue, ReadingEntry } from '../../core/log/schema.ts';
import type { PadReading, ReadOutcome } from '../../core/reading/reading.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { Pixels } from '../../vision/pixels.ts';
import { judgementOf } from '../read/wording.ts';

export interface KeptPad {
  readonly pad: PadReading;
  readonly target: { readonly low: number; readonly high: number } | null;
  readonly byHand: number | null;
}

export interface ReadingToKeep {
  readonly pads: readonly KeptPad[];
  readonly outcome: ReadOutcome;
  readonly scale: StripScale;
  readonly time: Date;
  readonly sinceDipSeconds: number | null;
}

export function toReadingEntry(reading: ReadingToKeep, poolId: string, pictureId: string | null): ReadingEntry {
  const { pads, outcome, scale, time, sinceDipSeconds } = reading;
  return {
    kind: 'reading',
    id: newId(),
    poolId,
    revision: 1,
    edited: new Date().toISOString(),
    time: time.toISOString(),
    zoneMinutes: zoneMinutesAt(time),
    note: '',
    origin: 'photo',
    values: pads.map(toLoggedValue),
    scale: { id: scale.id, name: scale.name },
    correction: outcome.correction,
    sinceDipSeconds,
    waterTemperatureC: null,
    warnings: [...outcome.warnings],
    quality: { ...outcome.quality },
    pictureId,
  };
}

function toLoggedValue(kept: KeptPad): LoggedValue {
  const { pad, byHand } = kept;
  const judgement = judgementOf(kept);
  const { parameter, unit, value, low, high, alternative, offScale, openAbove, openBelow } = pad;
  const found = value !== null && low !== null && high !== null;
  return {
    parameter,
    unit,
    photo: found ? { value, low: Math.min(low, value), high: Math.max(high, value) } : null,
    alternative: alternative && { value: alternative.value, low: alternative.low, high: alternative.high },
    offScale,
    openAbove,
    openBelow,
    word: judgement?.word ?? null,
    otherWord: judgement?.otherWord ?? null,
    isSure: judgement?.isSure ?? null,
    byHand,
  };
}

/** What a card's picture is kept with: about 200 kB, and no step between neighbouring blocks is lost to the eye. */
const QUALITY = 0.9;

/** The flattened card as a JPEG, drawn afresh: nothing of the photo's own data comes along. Null where that fails. */
export async function pictureOf(flat: Pixels): Promise<Uint8Array<ArrayBuffer> | null> {
  const canvas = document.createElement('canvas');
  canvas.width = flat.width;
  canvas.height = flat.height;
  const context = canvas.getContext('2d');
  if (!context) return null;
  context.putImageData(new ImageData(new Uint8ClampedArray(flat.data), flat.width, flat.height), 0, 0);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
  return blob && withoutMetadata(new Uint8Array(await blob.arrayBuffer()));
}
