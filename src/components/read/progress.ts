/** The stages of a reading as a list that is ticked off, beside the photo, with a way to stop. */
import type { Decoded } from '../../browser/decode.ts';
import { smallBitmap } from '../../browser/frame-decoder.ts';
import { clear, h, need, say } from '../dom.ts';
import { type DeskStage, STAGES } from './stages.ts';

/** Long side of the photo while one waits, px. */
const PREVIEW_PX = 640;
/**
 * A shorter wait needs no more than a line: up to a second doesn't interrupt a train of thought (Nielsen, Usability
 * Engineering, 1993, chapter 5), and drawing the list moves all that is below, which takes as long as a third of the reading.
 */
const SHORT_MILLIS = 600;

export class ProgressList {
  readonly #root: HTMLElement;
  readonly #status: HTMLElement;
  #reached: DeskStage = 'open-photo';
  #waiting: ReturnType<typeof setTimeout> | undefined;
  /** Draws the photo once the list is shown. */
  #preview: (() => void) | null = null;

  constructor(root: HTMLElement, onCancel: () => void) {
    this.#root = root;
    this.#status = need(root, '[role=status]');
    need(root, 'button').addEventListener('click', onCancel);
  }

  start(): void {
    this.#root.scrollIntoView({ block: 'nearest' });
    this.#reached = 'open-photo';
    this.#say();
    clearTimeout(this.#waiting);
    this.#waiting = setTimeout(() => this.#open(), SHORT_MILLIS);
  }

  #open(): void {
    this.#work.hidden = false;
    this.#draw();
    this.#root.scrollIntoView({ block: 'nearest' });
    this.#preview?.();
    this.#preview = null;
  }

  get #work(): HTMLElement {
    return need(this.#root, '.work');
  }

  /**
   * The photo to look at while waiting. A bitmap is drawn at once, before it is handed on; a large frame would hold up the
   * page for that, so the file is decoded once more to a small one, which takes a tenth of the time, if the wait is long.
   */
  show({ picture, width, height }: Decoded, photo: Blob): void {
    const shrink = Math.min(1, PREVIEW_PX / Math.max(width, height));
    const px = (length: number) => Math.max(1, Math.round(length * shrink));
    const canvas = h('canvas', { width: px(width), height: px(height), 'aria-hidden': 'true' });
    const draw = (source: ImageBitmap) =>
      canvas.getContext('2d', { willReadFrequently: true })?.drawImage(source, 0, 0, canvas.width, canvas.height);
    clear(need(this.#root, '.preview'));
    need(this.#root, '.preview').append(canvas);
    if (!('displayWidth' in picture)) return void draw(picture);
    const drawSmall = () =>
      void smallBitmap(photo, PREVIEW_PX).then((bitmap) => {
        if (bitmap) draw(bitmap);
        bitmap?.close();
      });
    if (this.#work.hidden) this.#preview = drawSmall;
    else drawSmall();
  }

  reach(stage: DeskStage): void {
    this.#reached = stage;
    if (!this.#work.hidden) this.#draw();
  }

  #draw(): void {
    const reached = STAGES.findIndex(({ id }) => id === this.#reached);
    const list = STAGES.map(({ text }, i) => {
      const state = i < reached ? 'done' : i === reached ? 'now' : 'later';
      return h('li', { class: state, 'aria-current': state === 'now' ? 'step' : null }, text);
    });
    need(this.#root, '.stages').replaceChildren(...list);
    this.#say();
  }

  #say(): void {
    say(this.#status, `${STAGES.find(({ id }) => id === this.#reached)!.text}.`);
  }

  end(message = ''): void {
    clearTimeout(this.#waiting);
    this.#preview = null;
    this.#work.hidden = true;
    clear(need(this.#root, '.preview'));
    say(this.#status, message);
  }
}
