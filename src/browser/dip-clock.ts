/**
 * When the strip came out of the water. By the clock on the wall, so that a tab that slept knows the time when it
 * wakes; kept for the tab, so that a page that was put away for the camera app comes back with it.
 */
import type { DipTimes } from '../core/dip/phases.ts';

const KEY = 'dipwise:dip';
/** An older dip is no longer timed. */
const MAX_SECONDS = 2 * 3600;

interface Dip {
  /** End of the dip, milliseconds since 1970; ahead while the strip is in the water. */
  readonly endsAt: number;
  /** A photo was read: the rest of the reading window no longer matters. */
  readonly isRead: boolean;
}

class DipClock extends EventTarget {
  #dip: Dip | null = kept();

  /** The strip goes into the water now. */
  startDip({ dipSeconds }: Pick<DipTimes, 'dipSeconds'>): void {
    this.#set({ endsAt: Date.now() + dipSeconds * 1000, isRead: false });
  }

  /** The strip came out of the water just now. */
  startLifted(): void {
    this.#set({ endsAt: Date.now(), isRead: false });
  }

  stop(): void {
    this.#set(null);
  }

  /** A photo of this dip has been read. */
  markRead(): void {
    if (this.#dip) this.#set({ ...this.#dip, isRead: true });
  }

  get isRunning(): boolean {
    return this.#dip !== null;
  }

  get isRead(): boolean {
    return this.#dip?.isRead ?? false;
  }

  /**
   * From the end of the dip, negative while it lasts; null when no dip is being timed.
   * @param at milliseconds since 1970
   */
  secondsSinceDip(at = Date.now()): number | null {
    return this.#dip && (at - this.#dip.endsAt) / 1000;
  }

  /**
   * How long after this dip a file's photo was taken: by the time the file carries where that lies after the dip, since
   * a camera app writes it when it takes the photo. Null for a photo older than the dip, and when none is being timed.
   */
  secondsAtPhoto({ lastModified }: Pick<File, 'lastModified'>): number | null {
    const seconds = this.secondsSinceDip(Math.min(lastModified, Date.now()));
    return seconds === null || seconds < 0 ? null : seconds;
  }

  #set(dip: Dip | null): void {
    this.#dip = dip;
    try {
      if (dip) sessionStorage.setItem(KEY, JSON.stringify(dip));
      else sessionStorage.removeItem(KEY);
    } catch {
      // Denied: the time lasts as long as the page.
    }
    this.dispatchEvent(new Event('change'));
  }
}

function kept(): Dip | null {
  try {
    const { endsAt, isRead } = JSON.parse(sessionStorage.getItem(KEY) ?? '{}') as Partial<Record<keyof Dip, unknown>>;
    if (typeof endsAt !== 'number' || typeof isRead !== 'boolean') return null;
    return Math.abs(Date.now() - endsAt) < MAX_SECONDS * 1000 ? { endsAt, isRead } : null;
  } catch {
    return null;
  }
}

/** One strip at a time. */
export const dipClock = new DipClock();
