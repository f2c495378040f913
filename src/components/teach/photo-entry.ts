/** One place where a photo comes in: chosen, dropped, pasted, or taken from the practice photos. */
import { decodePhoto } from '../../browser/decode.ts';
import type { Picture } from '../../vision/messages.ts';
import type { ReasonMessage } from '../../words/reading.ts';
import { need } from '../dom.ts';

export interface Opened {
  readonly picture: Picture;
  /** For an <img>; it stays good until the next photo comes in. */
  readonly url: string;
}

const SAMPLE_FAILED: ReasonMessage = {
  wrong: 'The practice photo could not be fetched.',
  remedy: 'Check the connection and try again.',
};

export class PhotoEntry {
  readonly #status: HTMLElement;
  readonly #onPhoto: (photo: Opened) => Promise<void>;
  #url = '';

  /** @param root holds a file input, a `.drop` zone, a `[role=status]`, and perhaps buttons with `data-photo` */
  constructor(root: HTMLElement, onPhoto: (photo: Opened) => Promise<void>) {
    this.#status = need(root, '.photo-status');
    this.#onPhoto = onPhoto;
    const input = need<HTMLInputElement>(root, 'input[type=file]');
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      input.value = '';
      if (file) void this.take(file);
    });
    this.#listenForDrops(need(root, '.drop'));
    for (const button of root.querySelectorAll<HTMLButtonElement>('button[data-photo]')) {
      button.addEventListener('click', () => void this.#fetch(button.dataset['photo']!));
    }
  }

  async take(photo: Blob): Promise<void> {
    this.say('Opening the photo…');
    const decoded = await decodePhoto(photo);
    if (!decoded.ok) return this.refuse((await import('../../words/photo.ts')).photoMessage(decoded.failure));
    URL.revokeObjectURL(this.#url);
    this.#url = URL.createObjectURL(photo);
    await this.#onPhoto({ picture: decoded.picture, url: this.#url });
  }

  say(text: string): void {
    this.#status.classList.remove('wrong');
    this.#status.textContent = text;
  }

  refuse({ wrong, remedy }: ReasonMessage): void {
    this.#status.classList.add('wrong');
    this.#status.textContent = `${wrong} ${remedy}`;
  }

  async #fetch(url: string): Promise<void> {
    this.say('Fetching the practice photo…');
    try {
      const response = await fetch(url);
      if (!response.ok) throw new Error(`status ${response.status}`);
      await this.take(await response.blob());
    } catch (error) {
      console.error(error);
      this.refuse(SAMPLE_FAILED);
    }
  }

  #listenForDrops(zone: HTMLElement): void {
    for (const type of ['dragover', 'dragleave', 'drop'] as const) {
      zone.addEventListener(type, (event) => {
        if (!event.dataTransfer?.types.includes('Files')) return;
        event.preventDefault();
        zone.classList.toggle('over', type === 'dragover');
        const file = type === 'drop' ? event.dataTransfer.files[0] : null;
        if (file) void this.take(file);
      });
    }
  }
}
