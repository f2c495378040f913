/** A photo on its way to the reader. */
import { dipClock } from '../../browser/dip-clock.ts';
import type { SheetData, Truth } from './sheet.ts';

export interface IncomingPhoto {
  readonly blob: Blob;
  /** Where it has been decoded already, or never was a file. */
  readonly bitmap?: ImageBitmap | undefined;
  /** From the end of the dip; null where it isn't known. */
  readonly sinceDipSeconds: number | null;
  readonly truth: Truth;
  /** That it must be read with; left out: the chosen one. */
  readonly scaleId?: string | undefined;
  readonly fromCamera?: boolean;
  /** Another photo of the strip on this sheet. */
  readonly joins?: Shown | undefined;
}

/** What the sheet on the page shows. */
export type Shown = Pick<
  SheetData,
  'outcome' | 'scale' | 'flat' | 'seen' | 'millis' | 'time' | 'sinceDipSeconds' | 'truth'
>;

/** The time of a file's photo is known where the timer ran. */
export function photoFrom(blob: Blob): IncomingPhoto {
  return { blob, sinceDipSeconds: blob instanceof File ? dipClock.secondsAtPhoto(blob) : null, truth: {} };
}

/** A practice photo, to be read with its own scale. @throws where it can't be fetched, or the signal aborts */
export async function practicePhoto({ dataset }: HTMLElement, signal: AbortSignal): Promise<IncomingPhoto> {
  const { photo, scale: scaleId, truth } = dataset;
  const response = await fetch(photo!, { signal });
  if (!response.ok) throw new Error(`status ${response.status}`);
  const blob = await response.blob();
  return { blob, sinceDipSeconds: null, truth: truth ? (JSON.parse(truth) as Truth) : {}, scaleId };
}
