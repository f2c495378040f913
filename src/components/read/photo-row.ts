/** One of several photos: its card, what it says in a line, and what can be done with it. */
import { jpegFromBase64 } from '../../browser/store/base64.ts';
import type { Unkept } from '../../browser/unkept.ts';
import type { Entry } from '../../core/reading/entry.ts';
import type { CardOutline } from '../../core/reading/reading.ts';
import { judgeTiming } from '../../core/reading/timing.ts';
import { ROWS } from '../../words/many.ts';
import { momentText } from '../../words/dates.ts';
import { quantityTitle } from '../../words/quantities.ts';
import type { ReasonMessage } from '../../words/reading.ts';
import { spanText, summaryText, timingMark, unitText, valueText } from '../../words/sheet.ts';
import { clear, freeCanvases, h } from '../dom.ts';
import { href } from '../href.ts';
import type { IncomingPhoto } from './incoming-photo.ts';
import type { PhotoSize } from './which-card.ts';

/** Left: not read, or put away. Joined: its reading rests in another row's. */
type RowState = 'waiting' | 'read' | 'refused' | 'kept' | 'joined' | 'left';

export interface RowContent {
  readonly state: RowState;
  readonly held?: Unkept | null;
  readonly reasons?: readonly ReasonMessage[];
  readonly cards?: Cards | undefined;
}

interface Cards {
  readonly size: PhotoSize;
  readonly outlines: readonly CardOutline[];
}

interface Actions {
  readonly open: () => void;
  readonly keep: () => void;
  readonly again: () => void;
}

/** Width of a card's picture, px: twice what is shown. */
const CARD_PX = 240;

export class PhotoRow {
  readonly element = h('li', { class: 'photo-row' });
  readonly photo: IncomingPhoto;
  /** Which of several cards, once the visitor has chosen. */
  which: number | null = null;
  state: RowState = 'waiting';
  /** As it stands on its sheet. */
  held: Unkept | null = null;
  cards: Cards | null = null;
  /** The rows of the photos that are one reading in this one. */
  parts: readonly PhotoRow[] = [];
  name: string;
  readonly #actions: Actions;
  readonly #card = h('canvas', { 'aria-hidden': 'true' });

  constructor(photo: IncomingPhoto, actions: Actions) {
    this.photo = photo;
    this.name = photo.blob instanceof File ? photo.blob.name : ROWS.unnamed;
    this.#actions = actions;
    this.show({ state: 'waiting' });
  }

  show({ state, held, reasons = [], cards }: RowContent): void {
    this.state = state;
    this.cards = cards ?? null;
    if (held) {
      const isFirst = this.held?.picture !== held.picture;
      this.held = held;
      if (isFirst) void this.#drawCard(held);
    }
    const hasValues = this.held !== null && (state === 'read' || state === 'kept' || state === 'joined');
    const entries = hasValues ? entriesOf(this.held!) : null;
    clear(this.element, this.#card);
    this.element.dataset['state'] = state;
    this.element.append(
      this.#card,
      h(
        'div',
        {},
        h('h3', {}, h('bdi', {}, this.name)),
        entries && h('p', { class: 'hint' }, momentText(this.held!.time)),
        entries && h('p', { class: 'row-summary' }, summaryText(entries)),
        entries && values(entries),
        ...reasons.map(({ wrong, remedy }) => h('p', { class: 'wrong' }, h('strong', {}, wrong), ` ${remedy}`)),
        h('p', { class: 'buttons' }, ...this.#buttons()),
      ),
    );
  }

  /** To be read once more. */
  again(which: number | null): void {
    this.which = which;
    this.show({ state: 'waiting' });
  }

  #buttons(): (HTMLElement | string)[] {
    const button = (text: string, act: () => void) => {
      const made = h('button', { type: 'button' }, text, h('span', { class: 'visually-hidden' }, ` ${this.name}`));
      made.addEventListener('click', act);
      return made;
    };
    switch (this.state) {
      case 'read':
        return [button(ROWS.open, this.#actions.open), ' ', button(ROWS.keep, this.#actions.keep)];
      case 'refused':
        return this.cards ? [button(ROWS.which, this.#actions.open)] : [];
      case 'left':
        return [`${ROWS.left} `, button(ROWS.again, this.#actions.again)];
      case 'kept':
        return [`${ROWS.isKept} `, h('a', { href: href('log/') }, ROWS.log)];
      case 'joined':
        return [ROWS.isJoined];
      case 'waiting':
        return [ROWS.waiting];
    }
  }

  async #drawCard({ picture }: Unkept): Promise<void> {
    freeCanvases(this.#card);
    const jpeg = picture === null ? null : jpegFromBase64(picture);
    if (!jpeg) return;
    const bitmap = await createImageBitmap(new Blob([jpeg], { type: 'image/jpeg' }), {
      resizeWidth: CARD_PX,
      resizeQuality: 'medium',
    }).catch(() => null);
    if (!bitmap) return;
    [this.#card.width, this.#card.height] = [bitmap.width, bitmap.height];
    this.#card.getContext('2d')?.drawImage(bitmap, 0, 0);
    bitmap.close();
  }
}

/** As on the sheet. */
function entriesOf({ outcome, scale, targets, truth, byHand, sinceDipSeconds }: Unkept): Entry[] {
  return outcome.pads.map((pad, i) => ({
    pad,
    scalePad: scale.pads[i]!,
    target: targets[i]!,
    truth: truth[pad.quantity] ?? null,
    byHand: byHand[i]!,
    timing: judgeTiming(scale, sinceDipSeconds),
  }));
}

function values(entries: readonly Entry[]): HTMLElement {
  const parts = entries.map((entry) =>
    h(
      'div',
      {},
      h('dt', {}, quantityTitle(entry.pad.quantity)),
      h(
        'dd',
        {},
        h('strong', {}, [valueText(entry), unitText(entry)].filter(Boolean).join(' ')),
        ' ',
        h('span', { class: 'span' }, [spanText(entry), timingMark(entry)].filter(Boolean).join(', ')),
      ),
    ),
  );
  return h('dl', { class: 'row-values' }, ...parts);
}
