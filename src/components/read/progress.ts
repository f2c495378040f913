/** The stages of a reading as a list that is ticked off, beside the photo, with a way to stop. */
import { h, need } from '../dom.ts';
import { type DeskStage, STAGES } from './stages.ts';

/** Long side of the photo while one waits, px. */
const PREVIEW_PX = 640;

export class ProgressList {
  readonly #root: HTMLElement;
  readonly #status: HTMLElement;

  constructor(root: HTMLElement, onCancel: () => void) {
    this.#root = root;
    this.#status = need(root, '[role=status]');
    need(root, 'button').addEventListener('click', onCancel);
  }

  start(): void {
    need<HTMLElement>(this.#root, '.work').hidden = false;
    this.#root.scrollIntoView({ block: 'nearest' });
    this.reach('open-photo');
  }

  /** @param photo to look at while waiting: drawn small at once, for an image of it would be decoded again */
  show(photo: ImageBitmap): void {
    const shrink = Math.min(1, PREVIEW_PX / Math.max(photo.width, photo.height));
    const [width, height] = [photo.width, photo.height].map((px) => Math.max(1, Math.round(px * shrink)));
    const canvas = h('canvas', { width: width!, height: height!, 'aria-hidden': 'true' });
    canvas.getContext('2d', { willReadFrequently: true })?.drawImage(photo, 0, 0, width!, height!);
    need(this.#root, '.preview').replaceChildren(canvas);
  }

  reach(stage: DeskStage): void {
    const reached = STAGES.findIndex(({ id }) => id === stage);
    const list = STAGES.map(({ text }, i) => {
      const state = i < reached ? 'done' : i === reached ? 'now' : 'later';
      return h('li', { class: state, 'aria-current': state === 'now' ? 'step' : null }, text);
    });
    need(this.#root, '.stages').replaceChildren(...list);
    this.#status.textContent = `${STAGES[reached]!.text}.`;
  }

  end(message = ''): void {
    need<HTMLElement>(this.#root, '.work').hidden = true;
    need(this.#root, '.preview').replaceChildren();
    this.#status.textContent = message;
  }
}
