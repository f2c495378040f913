/** The stages of a reading as a list that is ticked off, beside the photo, with a way to stop. */
import { h, need } from '../dom.ts';
import { type DeskStage, STAGES } from './stages.ts';

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

  /** @param previewUrl the photo, to look at while waiting; only of one that was found sound */
  show(previewUrl: string): void {
    need(this.#root, '.preview').replaceChildren(h('img', { src: previewUrl, alt: '', decoding: 'async' }));
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
