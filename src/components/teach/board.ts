/** The photo to mark on: it enlarges, and a place on it is chosen by mouse, by touch or by the arrow keys. */
import type { Point } from '../../core/card/homography.ts';
import { h, need } from '../dom.ts';
import { toElement } from '../svg.ts';
import { drawBoard, type Outline } from './board-drawing.ts';
import { moveOf } from './board-keys.ts';
import { keepInSight } from './board-view.ts';
import { Magnifier, type PhotoSize } from './magnifier.ts';
import type { RowGuess } from './next-row.ts';

export interface BoardPhoto extends PhotoSize {
  readonly url: string;
  /** Where the crosshair begins. */
  readonly start: Point;
}

export interface BoardEvents {
  readonly onTap: (place: Point) => void;
  /** From the middle of a row's first block to that of its last. */
  readonly onRow: (from: Point, to: Point) => void;
  readonly onErase: (place: Point) => void;
  readonly onNewRow: () => void;
}

const ZOOMS = [1, 1.5, 2.25, 3.5, 5];
/** A mouse that moves less than this between down and up has clicked. */
const CLICK_PX = 7;

export class PhotoBoard {
  readonly #sheet: HTMLElement;
  readonly #view: HTMLElement;
  readonly #image: HTMLImageElement;
  readonly #overlay: HTMLElement;
  readonly #magnifier: Magnifier;
  readonly #events: BoardEvents;
  #photo: BoardPhoto | null = null;
  #outlines: readonly Outline[] = [];
  #cross: Point = [0, 0];
  /** What the magnifier shows. */
  #looked: Point = [0, 0];
  /** Where a row begins that is being drawn. */
  #from: Point | null = null;
  #zoom = 0;
  #guess: RowGuess | null = null;
  #drag: { readonly id: number; readonly x: number; readonly y: number } | null = null;
  #dragged = false;

  constructor(root: HTMLElement, events: BoardEvents) {
    this.#events = events;
    this.#view = need(root, '.board-view');
    this.#sheet = need(root, '.board-sheet');
    this.#image = h('img', { alt: '', draggable: 'false' });
    this.#sheet.prepend(this.#image);
    this.#overlay = need(root, '.board-overlay');
    this.#magnifier = new Magnifier(need(root, '.magnifier'), this.#image);
    const zoomBy = (steps: number) => () => this.#setZoom(this.#zoom + steps);
    need(root, '[data-zoom=in]').addEventListener('click', zoomBy(1));
    need(root, '[data-zoom=out]').addEventListener('click', zoomBy(-1));
    for (const choice of root.querySelectorAll<HTMLInputElement>('input[name=finger]')) {
      const take = () => choice.checked && this.#sheet.classList.toggle('drawing', choice.value === 'row');
      choice.addEventListener('change', take);
      // A browser may have put back the choice of the last visit.
      take();
    }
    this.#listen();
  }

  open(photo: BoardPhoto): void {
    this.#photo = photo;
    this.#image.src = photo.url;
    this.#image.width = photo.widthPx;
    this.#image.height = photo.heightPx;
    this.#cross = photo.start;
    this.#from = this.#guess = null;
    this.draw([]);
    // Without a picture in it the sheet has no height yet.
    this.#image.decode().then(
      () => {
        this.#setZoom(0);
        this.#centreOn(photo.start);
      },
      () => undefined,
    );
  }

  draw(outlines: readonly Outline[]): void {
    this.#outlines = outlines;
    this.#redraw();
    if (this.#magnifier.visible) this.#magnify(this.#looked);
  }

  get image(): HTMLImageElement {
    return this.#image;
  }

  focus(): void {
    this.#sheet.focus({ preventScroll: true });
  }

  /** A row was marked: the crosshair goes to where the next one may begin. */
  lead(guess: RowGuess | null): void {
    this.#guess = guess;
    if (!guess) return;
    this.#cross = guess.from;
    this.#show();
  }

  /** The row that is being drawn is given up. */
  forgetRow(): void {
    this.#from = null;
    this.#redraw();
  }

  #listen(): void {
    const sheet = this.#sheet;
    sheet.addEventListener('keydown', (event) => this.#key(event));
    sheet.addEventListener('focus', () => {
      if (this.#photo && sheet.matches(':focus-visible')) this.#show();
      else this.#redraw();
    });
    sheet.addEventListener('blur', () => {
      this.#magnifier.hide();
      this.#redraw();
    });
    sheet.addEventListener('pointerdown', (event) => this.#down(event));
    sheet.addEventListener('pointermove', (event) => this.#move(event));
    sheet.addEventListener('pointerup', (event) => this.#up(event));
    sheet.addEventListener('pointercancel', () => this.#endDrag());
    sheet.addEventListener('pointerleave', () => {
      if (!this.#drag) this.#magnifier.hide();
    });
    sheet.addEventListener('click', (event) => {
      if (this.#dragged) this.#dragged = false;
      else this.#tap(this.#placeOf(event));
    });
  }

  /** With the mouse a drag always draws a row; with a finger it moves the photo unless drawing was chosen. */
  #draws(event: PointerEvent): boolean {
    return event.pointerType !== 'touch' || this.#sheet.classList.contains('drawing');
  }

  #down(event: PointerEvent): void {
    this.#dragged = false;
    if (!this.#photo || event.button !== 0 || !this.#draws(event)) return;
    this.#drag = { id: event.pointerId, x: event.clientX, y: event.clientY };
    this.#sheet.setPointerCapture(event.pointerId);
    this.#from = this.#placeOf(event);
    this.#cross = this.#from;
  }

  #move(event: PointerEvent): void {
    if (!this.#photo || (event.pointerType === 'touch' && !this.#drag)) return;
    const place = this.#placeOf(event);
    if (this.#drag?.id === event.pointerId) {
      this.#cross = place;
      this.#redraw();
    }
    this.#magnify(place);
  }

  #up(event: PointerEvent): void {
    const drag = this.#drag;
    const from = this.#from;
    if (drag?.id !== event.pointerId || !from) return;
    this.#endDrag();
    if (Math.hypot(event.clientX - drag.x, event.clientY - drag.y) < CLICK_PX) return;
    this.#dragged = true;
    this.#from = from;
    this.#cross = this.#placeOf(event);
    this.#redraw();
    this.#events.onRow(from, this.#cross);
  }

  #endDrag(): void {
    this.#drag = null;
    this.#from = null;
    this.#magnifier.hide();
    this.#redraw();
  }

  #tap(place: Point): void {
    if (!this.#photo) return;
    this.#cross = place;
    this.#from = null;
    this.#events.onTap(place);
    this.#magnify(place);
    this.#redraw();
  }

  #key(event: KeyboardEvent): void {
    if (!this.#photo || event.altKey || event.metaKey) return;
    const move = moveOf(event);
    if (move) this.#moveCross(move, this.#photo.pxPerMm);
    else if (event.ctrlKey || !this.#command(event.key)) return;
    event.preventDefault();
  }

  #command(key: string): boolean {
    switch (key.toLowerCase()) {
      case 'enter':
      case ' ':
        this.#tap(this.#cross);
        return true;
      case 'r':
        this.#rowKey();
        return true;
      case 'n':
        this.#events.onNewRow();
        return true;
      case 'delete':
      case 'backspace':
        this.#events.onErase(this.#cross);
        return true;
      case '+':
      case '-':
        this.#setZoom(this.#zoom + (key === '+' ? 1 : -1));
        return true;
      case 'escape':
        if (!this.#from) return false;
        this.forgetRow();
        return true;
      default:
        return false;
    }
  }

  /** The first press begins a row at the crosshair, the second ends it. */
  #rowKey(): void {
    const from = this.#from;
    if (from) return this.#events.onRow(from, this.#cross);
    this.#from = this.#cross;
    const guess = this.#guess;
    if (guess) this.#moveCross([guess.to[0] - guess.from[0], guess.to[1] - guess.from[1]], 1);
    else this.#redraw();
  }

  #moveCross([dx, dy]: Point, px: number): void {
    const { widthPx, heightPx } = this.#photo!;
    const inside = (value: number, size: number) => Math.min(size - 1, Math.max(0, value));
    this.#cross = [inside(this.#cross[0] + dx * px, widthPx), inside(this.#cross[1] + dy * px, heightPx)];
    this.#show();
  }

  /** Whoever goes by keys sees where they are, whatever was scrolled. */
  #show(): void {
    const scale = this.#sheet.clientWidth / this.#photo!.widthPx;
    keepInSight(this.#view, this.#sheet, this.#cross[0] * scale, this.#cross[1] * scale);
    this.#magnify(this.#cross);
    this.#redraw();
  }

  #centreOn([x, y]: Point): void {
    const scale = this.#sheet.clientWidth / this.#photo!.widthPx;
    this.#view.scrollTo(x * scale - this.#view.clientWidth / 2, y * scale - this.#view.clientHeight / 2);
  }

  #magnify(place: Point): void {
    this.#looked = place;
    const scale = this.#sheet.clientWidth / this.#photo!.widthPx;
    const seenX = place[0] * scale - this.#view.scrollLeft;
    this.#magnifier.show(this.#photo!, place, this.#outlines, seenX < this.#view.clientWidth / 2);
  }

  #placeOf(event: MouseEvent): Point {
    const box = this.#sheet.getBoundingClientRect();
    const { widthPx, heightPx } = this.#photo ?? { widthPx: 1, heightPx: 1 };
    return [((event.clientX - box.left) / box.width) * widthPx, ((event.clientY - box.top) / box.height) * heightPx];
  }

  /** What is in the middle stays in the middle. */
  #setZoom(zoom: number): void {
    this.#zoom = Math.min(ZOOMS.length - 1, Math.max(0, zoom));
    const view = this.#view;
    const before = this.#sheet.clientWidth || 1;
    const middle = [view.scrollLeft + view.clientWidth / 2, view.scrollTop + view.clientHeight / 2] as const;
    this.#sheet.style.width = `${ZOOMS[this.#zoom]! * 100}%`;
    const factor = this.#sheet.clientWidth / before;
    view.scrollLeft = middle[0] * factor - view.clientWidth / 2;
    view.scrollTop = middle[1] * factor - view.clientHeight / 2;
    this.#redraw();
  }

  #redraw(): void {
    if (!this.#photo) return;
    const { widthPx } = this.#photo;
    const drawing = drawBoard(this.#photo, {
      outlines: this.#outlines,
      rowFrom: this.#from,
      cross: this.#cross,
      showCross: document.activeElement === this.#sheet || this.#from !== null,
      // A line of the drawing is about one px of the screen, whatever the zoom.
      unitPx: widthPx / Math.max(200, this.#sheet.clientWidth),
    });
    this.#overlay.replaceChildren(toElement(drawing));
  }
}
