/**
 * The reading that was made last and isn't in the logbook yet: it waits in this tab until it is kept, replaced by
 * another or discarded, so that the way to the plan and back doesn't lose it.
 */
import type { PadQuantity } from '../core/measurement/quantities.ts';
import type { ByHand } from '../core/reading/measured.ts';
import type { ReadOutcome } from '../core/reading/reading.ts';
import type { StripScale } from '../core/scale/schema.ts';

const KEY = 'dipwise:unkept';
/** Another edition of the site may have left another kind behind. */
const FORMAT = 'dipwise-unkept-2';

export interface Unkept {
  /** As the photo gave it, before the time since the dip was judged. */
  readonly outcome: ReadOutcome;
  readonly scale: StripScale;
  readonly millis: { readonly find: number; readonly read: number };
  /** ISO 8601. */
  readonly time: string;
  readonly sinceDipSeconds: number | null;
  readonly truth: Partial<Record<PadQuantity, number>>;
  /** Pad by pad, as are the values by hand. */
  readonly targets: readonly ({ readonly low: number; readonly high: number } | null)[];
  readonly byHand: readonly (ByHand | null)[];
  /** What was typed into the fields beside it. */
  readonly water: string;
  readonly note: string;
  /** The flattened card, a JPEG in base64. */
  readonly picture: string | null;
}

/** @returns false where the browser keeps nothing; without its picture where there is no room for that */
export function holdUnkept(reading: Unkept): boolean {
  const write = (kept: Unkept): boolean => {
    try {
      sessionStorage.setItem(KEY, JSON.stringify({ format: FORMAT, ...kept }));
      return true;
    } catch {
      return false;
    }
  };
  return write(reading) || write({ ...reading, picture: null });
}

export function unkept(): Unkept | null {
  try {
    const kept = JSON.parse(sessionStorage.getItem(KEY) ?? 'null') as (Unkept & { format?: unknown }) | null;
    if (kept?.format !== FORMAT) return null;
    const pads = kept.outcome.pads.length;
    const isWhole = [kept.scale.pads, kept.targets, kept.byHand].every(({ length }) => length === pads);
    return isWhole ? kept : null;
  } catch {
    return null;
  }
}

export function forgetUnkept(): void {
  try {
    sessionStorage.removeItem(KEY);
  } catch {
    // Denied: there is nothing to forget.
  }
}
