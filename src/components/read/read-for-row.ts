/** One of several photos, from its file to what its row shows. */
import { decodedAs, decodePhoto } from '../../browser/decode.ts';
import { dipClock } from '../../browser/dip-clock.ts';
import { toBase64 } from '../../browser/store/base64.ts';
import type { VisionClient } from '../../browser/worker-client.ts';
import type { Spans } from '../../core/reading/spans.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { photoMessage } from '../../words/photo.ts';
import { refusalMessage } from '../../words/reading.ts';
import { pictureOf } from '../keep/reading-entry.ts';
import type { IncomingPhoto } from './incoming-photo.ts';
import type { RowContent } from './photo-row.ts';

export interface ReadingUses {
  readonly client: VisionClient;
  /** The scale a photo is to be read with. */
  readonly scaleOf: (photo: IncomingPhoto) => Promise<StripScale>;
  readonly targets: Spans;
}

/** No phone photographed a strip before, and a logbook takes no date from before: 1990. */
const FIRST_TIME = Date.UTC(1990, 0, 1);

/**
 * Rejects with an AbortError when `signal` aborts or the client is closed, with an Error when the reader fails.
 * @param which of several cards, once the visitor has chosen
 */
export async function readForRow(
  photo: IncomingPhoto,
  which: number | null,
  { client, scaleOf, targets }: ReadingUses,
  signal: AbortSignal,
): Promise<RowContent> {
  const scale = await scaleOf(photo);
  const decoded = photo.bitmap ? decodedAs(photo.bitmap) : await decodePhoto(photo.blob);
  if (signal.aborted && decoded.ok) decoded.picture.close();
  signal.throwIfAborted();
  if (!decoded.ok) return { state: 'refused', reasons: [photoMessage(decoded.failure)] };
  const { picture, width, height } = decoded;
  const { reading, flat, millis } = await client.read(picture, scale, () => undefined, signal, which);
  if (reading.outcome === 'refused') {
    const cards = reading.cards && { size: { width, height }, outlines: reading.cards };
    return { state: 'refused', reasons: reading.reasons.map(refusalMessage), cards };
  }
  const { sinceDipSeconds, truth } = photo;
  if (sinceDipSeconds !== null) dipClock.markRead();
  const jpeg = flat && (await pictureOf(flat));
  const time = takenAt(photo.blob).toISOString();
  const held = {
    ...{ outcome: reading, scale, millis, time, sinceDipSeconds, truth },
    targets: scale.pads.map(({ parameter }) => targets[parameter] ?? null),
    byHand: scale.pads.map(() => null),
    ...{ water: '', note: '' },
    picture: jpeg && toBase64(jpeg),
  };
  return { state: 'read', held };
}

/** By the file's own clock, which is when most cameras wrote it; now where that can't be. */
function takenAt(photo: Blob): Date {
  const time = photo instanceof File ? photo.lastModified : NaN;
  return new Date(time > FIRST_TIME && time <= Date.now() ? time : Date.now());
}
