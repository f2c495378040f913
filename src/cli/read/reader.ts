/** One photo after the other, from its file to its answer, in this thread. */
import { stat } from 'node:fs/promises';
import sharp from 'sharp';
import type { Reading } from '../../core/reading/reading.ts';
import { withTiming } from '../../core/reading/timing.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import type { Pixels } from '../../vision/pixels.ts';
import { readPhoto } from '../../vision/read.ts';
import { NO_PHOTOS, READER_STOPPED } from '../../words/many.ts';
import { photoMessage } from '../../words/photo.ts';
import { type ReasonMessage, refusalMessage } from '../../words/reading.ts';
import { openPhotoAt } from '../decode.ts';

export interface ReaderOptions {
  readonly scale: StripScale;
  /** Which of several cards, from 0; null where nobody said. */
  readonly which: number | null;
  /** Null where nobody said. */
  readonly secondsSinceDip: number | null;
  /** Whether a picture of each card is wanted. */
  readonly withCard: boolean;
}

export interface Reason {
  readonly code: string;
  readonly message: string;
}

/** Plain data, so that a worker can hand it on. */
export interface PhotoAnswer {
  /** As it was given, or found. */
  readonly path: string;
  readonly reading: Reading;
  /** Why it was refused; those about the file are in no reading. */
  readonly reasons: readonly Reason[];
  readonly millis: { readonly decode: number; readonly find: number; readonly read: number };
  /** The flattened card as a JPEG, where it was wanted and found. */
  readonly card: Uint8Array | null;
}

export type AskReader = (path: string) => Promise<PhotoAnswer>;

const CARD_PX = 720;
const CARD_QUALITY = 82;

export function startReader(options: ReaderOptions): AskReader {
  // What it would keep of one photo helps no other.
  sharp.cache(false);
  return async (path) => {
    const started = performance.now();
    const opened = await openPhotoAt(path);
    const decode = performance.now() - started;
    if (!opened.ok) {
      const isFolder = await stat(path).then(
        (about) => about.isDirectory(),
        () => false,
      );
      const reason = isFolder
        ? described(NO_PHOTOS.code, NO_PHOTOS)
        : described(opened.failure, photoMessage(opened.failure));
      return refusedAs(path, reason, decode);
    }
    try {
      const { scale, which, secondsSinceDip, withCard } = options;
      const { reading, flat, millis } = readPhoto(opened.pixels, scale, () => undefined, which);
      const timed = reading.outcome === 'read' ? withTiming(reading, scale, secondsSinceDip) : reading;
      const reasons =
        timed.outcome === 'read' ? [] : timed.reasons.map((code) => described(code, refusalMessage(code)));
      const card = withCard && flat ? await pictureOf(flat) : null;
      return { path, reading: timed, reasons, millis: { decode, ...millis }, card };
    } catch (error) {
      return refusedAs(path, { ...stopped(), message: `${stopped().message} (${String(error)})` }, decode);
    }
  };
}

/** A photo at which the reader itself failed. */
export function stoppedAt(path: string): PhotoAnswer {
  return refusedAs(path, stopped());
}

function stopped(): Reason {
  return described(READER_STOPPED.code, READER_STOPPED);
}

function refusedAs(path: string, reason: Reason, decode = 0): PhotoAnswer {
  const reading = { outcome: 'refused', reasons: [], places: [] } as const;
  return { path, reading, reasons: [reason], millis: { decode, find: 0, read: 0 }, card: null };
}

function described(code: string, { wrong, remedy }: ReasonMessage): Reason {
  return { code, message: `${wrong} ${remedy}` };
}

async function pictureOf({ data, width, height }: Pixels): Promise<Uint8Array> {
  const raw = { raw: { width, height, channels: 4 } } as const;
  return sharp(data, raw).flatten().resize({ width: CARD_PX }).jpeg({ quality: CARD_QUALITY }).toBuffer();
}
