/** A reading that isn't in the logbook yet waits in its tab, and comes back with the page. */
import { jpegFromBase64, toBase64 } from '../../browser/store/base64.ts';
import { forgetUnkept, holdUnkept, type Unkept, unkept } from '../../browser/unkept.ts';
import { h } from '../dom.ts';
import type { Typed } from '../keep/keep-button.ts';
import { pictureOf } from '../keep/reading-entry.ts';
import type { Pixels } from '../../vision/pixels.ts';
import { pixelsOf } from '../photo/card-picture.ts';
import type { Entry } from '../../core/reading/entry.ts';
import type { SheetData } from './sheet.ts';

type Waiting = Pick<SheetData, 'outcome' | 'scale' | 'flat' | 'millis' | 'time' | 'sinceDipSeconds' | 'truth'> & {
  readonly before: Pick<Unkept, 'byHand' | 'water' | 'note' | 'picture'>;
};

/** What the sheet needs to stand as it stood; null where nothing waits. */
export async function waitingReading(): Promise<Waiting | null> {
  const waiting = unkept();
  return waiting && asShown(waiting);
}

export async function asShown(waiting: Unkept): Promise<Waiting> {
  const { outcome, scale, millis, sinceDipSeconds, truth, byHand, water, note, picture } = waiting;
  const jpeg = picture === null ? null : jpegFromBase64(picture);
  const flat = jpeg && (await pixelsOf(jpeg));
  const time = new Date(waiting.time);
  return { outcome, scale, flat, millis, time, sinceDipSeconds, truth, before: { byHand, water, note, picture } };
}

/** Forgets what waits. @returns what is said of it, with a way back where the tab had kept it */
export async function discarded(onUndo: (waiting: Waiting) => void): Promise<HTMLElement> {
  const waiting = await waitingReading();
  forgetUnkept();
  const said = h('span', { id: 'discarded' }, 'Reading discarded.');
  // The button takes the focus, and says of what it is.
  const undo = waiting && h('button', { type: 'button', 'aria-describedby': said.id }, 'Undo');
  undo?.addEventListener('click', () => onUndo(waiting!));
  return h('p', { class: 'discarded', role: undo ? null : 'status' }, said, ' ', undo);
}

/** @returns lets the reading wait in this tab as it stands, its picture as soon as that is made */
export function waitingRoom(
  { outcome, scale, millis, time, truth, flat, before, onHold = holdUnkept }: SheetData,
  state: () => { readonly entries: readonly Entry[]; readonly sinceDipSeconds: number | null },
): (typed: Typed) => boolean {
  let picture = before?.picture ?? null;
  let last: Typed | null = null;
  const hold = (typed: Typed): boolean => {
    const { entries, sinceDipSeconds } = state();
    const [targets, byHand] = [entries.map(({ target }) => target), entries.map((entry) => entry.byHand)];
    const facts = { outcome, scale, millis, time: time.toISOString(), sinceDipSeconds, truth };
    return onHold({ ...facts, targets, byHand, ...typed, picture });
  };
  const addPicture = async (card: Pixels) => {
    const jpeg = await pictureOf(card);
    picture = jpeg && toBase64(jpeg);
    // Kept, discarded or replaced meanwhile, it stays gone.
    if (unkept()?.time === time.toISOString()) hold(last!);
  };
  return (typed) => {
    const isFirst = last === null;
    last = typed;
    // Drawing it would hold up the sheet itself.
    if (isFirst && flat && picture === null) setTimeout(() => void addPicture(flat));
    return hold(typed);
  };
}

/** The card for the logbook. One that has waited is taken as it is: compressing it again would lose detail. */
export async function jpegOf({ flat, before }: SheetData): Promise<Uint8Array<ArrayBuffer> | null> {
  if (before?.picture) return jpegFromBase64(before.picture);
  return flat && pictureOf(flat);
}
