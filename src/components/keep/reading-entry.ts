/** From the reading sheet to an entry of the logbook. */
import { newId, zoneMinutesAt } from '../../browser/store/ids.ts';
import { withoutMetadata } from '../../core/log/picture.ts';
import { type LoggedValue, NOTHING_SAID, type ReadingEntry, toLogged } from '../../core/log/schema.ts';
import type { UsedScale } from '../../core/measurement/measurement.ts';
import { type ByHand, judgementOf, measuredByHand, measuredByPad, usedScale } from '../../core/reading/measured.ts';
import type { PadReading, ReadOutcome } from '../../core/reading/reading.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { Pixels } from '../../vision/pixels.ts';

export interface KeptPad {
  readonly pad: PadReading;
  readonly target: { readonly low: number; readonly high: number } | null;
  readonly byHand: ByHand | null;
}

export interface ReadingToKeep {
  readonly pads: readonly KeptPad[];
  readonly outcome: ReadOutcome;
  readonly scale: StripScale;
  readonly time: Date;
  readonly sinceDipSeconds: number | null;
}

/** What stands beside the pads: typed on the sheet, the water's temperature among it. */
export interface Beside {
  readonly temperatureC: number | null;
  readonly note: string;
}

export function toReadingEntry(
  reading: ReadingToKeep,
  { temperatureC, note }: Beside,
  poolId: string,
  pictureId: string | null,
): ReadingEntry {
  const { pads, outcome, scale, time, sinceDipSeconds } = reading;
  const iso = time.toISOString();
  const temperature = temperatureC === null ? null : { value: temperatureC, method: 'meter' as const };
  return {
    kind: 'reading',
    id: newId(),
    poolId,
    revision: 1,
    edited: new Date().toISOString(),
    time: iso,
    zoneMinutes: zoneMinutesAt(time),
    note,
    origin: 'photo',
    values: [
      ...pads.flatMap((kept) => toLoggedValues(kept, usedScale(scale), iso)),
      ...(temperature ? [toLogged(measuredByHand('temperature', temperature, iso), NOTHING_SAID)] : []),
    ],
    unmatched: pads.filter(({ pad }) => !pad.matched).map(({ pad }) => pad.quantity),
    scale: usedScale(scale),
    correction: outcome.correction,
    sinceDipSeconds,
    warnings: [...outcome.warnings],
    quality: { ...outcome.quality },
    pictureId,
  };
}

/** The photo's value, and beside it the one by hand; what is said is said of the one that counts. */
function toLoggedValues(kept: KeptPad, scale: UsedScale, time: string): LoggedValue[] {
  const { pad, byHand } = kept;
  const byPhoto = measuredByPad(pad, scale, time);
  const judgement = judgementOf(kept);
  // A pad that matched nothing is named by the entry.
  const said = judgement && judgement.word !== 'unmatched' ? judgement : NOTHING_SAID;
  return [
    ...(byPhoto ? [toLogged(byPhoto, byHand ? NOTHING_SAID : said)] : []),
    ...(byHand ? [toLogged(measuredByHand(pad.quantity, byHand, time), said)] : []),
  ];
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
  const data = flat.data as Uint8ClampedArray<ArrayBuffer>;
  context.putImageData(new ImageData(data, flat.width, flat.height), 0, 0);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
  canvas.width = 0;
  return blob && withoutMetadata(new Uint8Array(await blob.arrayBuffer()));
}
