/** The stages of a reading as a list that is ticked off, beside the photo, with a way to stop. */
import type { Decoded } from '../../browser/decode.ts';
import { smallFrame } from '../../browser/frame-decoder.ts';
import type { Picture } from '../../vision/messages.ts';
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

  /**
   * The photo to look at while waiting. A bitmap is drawn at once, before it is handed on; a large frame would hold up the
   * page for that, so the file is decoded once more to a small one, which takes a tenth of the time.
   */
  show({ picture, width, height }: Decoded, photo: Blob): void {
    const shrink = Math.min(1, PREVIEW_PX / Math.max(width, height));
    const px = (length: number) => Math.max(1, Math.round(length * shrink));
    const canvas = h('canvas', { width: px(width), height: px(height), 'aria-hidden': 'true' });
    const draw = (source: Picture) =>
      canvas.getContext('2d', { willReadFrequently: true })?.drawImage(source, 0, 0, canvas.width, canvas.height);
    need(this.#root, '.preview').replaceChildren(canvas);
    if ('displayWidth' in picture)
      void smallFrame(photo, PREVIEW_PX).then((frame) => {
        if (frame) draw(frame);
        frame?.close();
      });
    else draw(picture);
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
