/** The visitor's own scales, and what can be done with them and with the practice scales. */
import { onOpenedFile } from '../../browser/offline.ts';
import { deleteScale, keepScale, keptScales } from '../../browser/scales.ts';
import { saveScale } from '../scale/save-scale.ts';
import { remember } from '../../browser/remembered.ts';
import { duplicateOf, freeScaleId } from '../../core/scale/edit-scale.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { h, need } from '../dom.ts';
import { href } from '../href.ts';
import { button } from './button.ts';

const SCALE_KEY = 'scale';

class ScaleShelf extends HTMLElement {
  #practice: readonly StripScale[] = [];
  #scales: readonly StripScale[] = [];
  /** There as soon as there is a scale. */
  #own: typeof import('./own-scale.ts') | null = null;

  connectedCallback(): void {
    this.#practice = JSON.parse(need(this, 'script[data-practice]').textContent) as StripScale[];
    for (const scale of this.#practice) {
      need(this, `[data-practice-id="${scale.id}"] .buttons`).append(
        button('Duplicate', scale, () => void this.#duplicate(scale)),
        button('Save to a file', scale, () => void saveScale(scale)),
      );
    }
    const input = need<HTMLInputElement>(this, '#scale-file');
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      input.value = '';
      if (file) void this.#import(file);
    });
    onOpenedFile((file) => void this.#import(file));
    void this.#load().then(() => (this.dataset['ready'] = ''));
  }

  async #load(): Promise<void> {
    const { scales, unusable } = await keptScales();
    if (scales.length > 0) this.#own ??= await import('./own-scale.ts');
    this.#scales = scales;
    this.#draw();
    if (unusable > 0) {
      this.#say(
        unusable === 1
          ? 'One scale kept here was made by another version of Dipwise and can’t be used.'
          : `${unusable} scales kept here were made by another version of Dipwise and can’t be used.`,
      );
    }
  }

  #draw(): void {
    const list = need(this, '.own-scales');
    const entries = this.#scales.map((scale) => {
      const { scaleEntry, concernsOf } = this.#own!;
      return scaleEntry(scale, concernsOf(scale), {
        onRead: () => {
          remember(SCALE_KEY, scale.id);
          location.assign(href('read/'));
        },
        onEdit: () => this.#edit(scale),
        onDuplicate: () => void this.#duplicate(scale),
        onSave: () => void saveScale(scale),
        onDelete: () => void this.#delete(scale),
        onForget: (learnt) =>
          void this.#keep(this.#own!.withoutLearnt(scale, learnt), `${scale.name} has forgotten it.`),
      });
    });
    list.replaceChildren(...entries);
    need<HTMLElement>(this, '.none-yet').hidden = entries.length > 0;
  }

  #edit(scale: StripScale): void {
    const entry = need(this, `article[data-id="${scale.id}"]`);
    const form = this.#own!.editForm(scale, (changed) => {
      if (changed) void this.#keep(changed, `${changed.name} is changed.`);
      else {
        this.#draw();
        this.#focus(scale.id);
      }
    });
    entry.replaceWith(form);
    need<HTMLElement>(form, 'input').focus();
  }

  async #duplicate(scale: StripScale): Promise<void> {
    const name = `${scale.name}, copy`.slice(0, 120);
    await this.#keep(
      duplicateOf(scale, this.#freeId(name), name),
      `${name} is kept. Its name and values can be edited.`,
    );
  }

  async #delete(scale: StripScale): Promise<void> {
    try {
      const undo = await deleteScale(scale);
      await this.#load();
      const back = h('button', { type: 'button' }, 'Undo');
      back.addEventListener('click', () => {
        undo().then(
          async () => {
            await this.#load();
            this.#say(`${scale.name} is back.`);
            this.#focus(scale.id);
          },
          (error: unknown) => this.#failed(error),
        );
      });
      this.#say(`${scale.name} is deleted. `, back);
      back.focus();
    } catch (error) {
      this.#failed(error);
    }
  }

  async #import(file: File): Promise<void> {
    const { faultSentence, MAX_BYTES, readScaleFile } = await import('../scale/scale-file.ts');
    const text = file.size > MAX_BYTES ? ' '.repeat(MAX_BYTES + 1) : await file.text();
    const read = readScaleFile(text);
    if (!read.ok && isLogbook(text)) {
      const log = h('a', { href: href('log/') }, 'logbook page');
      this.#say(h('bdi', {}, file.name), ' is a logbook, not a scale. Bring it in on the ', log, '.');
      return;
    }
    if (!read.ok) {
      const issues = read.issues.slice(0, 6).map((issue) => h('li', {}, faultSentence(issue)));
      this.#say(`${file.name} could not be opened as a scale:`, h('ul', {}, ...issues));
      return;
    }
    const scale = { ...read.scale, id: this.#freeId(read.scale.name) };
    await this.#keep(scale, `${scale.name} is kept.`);
  }

  #freeId(name: string): string {
    return freeScaleId(name, new Set([...this.#practice, ...this.#scales].map(({ id }) => id)));
  }

  async #keep(scale: StripScale, said: string): Promise<void> {
    try {
      const where = await keepScale(scale);
      await this.#load();
      this.#say(where === 'device' ? said : `${said} This browser keeps it only until the page is closed.`);
      this.#focus(scale.id);
    } catch (error) {
      this.#failed(error);
    }
  }

  #failed(error: unknown): void {
    console.error(error);
    this.#say('That could not be kept. There may be no room left on this device.');
  }

  #focus(id: string): void {
    this.querySelector<HTMLElement>(`article[data-id="${id}"] h3`)?.focus();
  }

  #say(...content: (string | Node)[]): void {
    need(this, '.shelf-said').replaceChildren(...content);
  }
}

/** The device hands every JSON file of ours to this page. */
function isLogbook(text: string): boolean {
  return /^\ufeff?\s*\{\s*"format"\s*:\s*"dipwise-logbook"/.test(text);
}

customElements.define('scale-shelf', ScaleShelf);
