/** The element behind the settings page. */
import '../../browser/zod-setup.ts';
import { askWorker, forgetSite, keepRest } from '../../browser/offline.ts';
import { forgetAll } from '../../browser/remembered.ts';
import { settings } from '../../browser/settings.ts';
import { toStoreError } from '../../browser/store/failure.ts';
import { type Logbook, openLogbook } from '../../browser/store/logbook.ts';
import { persist } from '../../browser/store/persistence.ts';
import { EYES, THEMES } from '../../core/settings.ts';
import { h, need } from '../dom.ts';
import { siteBase } from '../href.ts';
import { failureText } from '../../words/log.ts';
import { showTheme } from '../theme.ts';
import { contentLine, storedFacts } from './stored.ts';

const base = siteBase();

class SettingsDesk extends HTMLElement {
  #logbook!: Logbook;

  connectedCallback(): void {
    this.#choices();
    need(this, '[data-persist]').addEventListener('click', () => void this.#persist());
    need(this, '[data-keep-site]').addEventListener('click', () => void this.#keepSite());
    need(this, '[data-save]').addEventListener('click', () => void this.#save());
    need(this, '[data-erase]').addEventListener('click', () => void this.#ask());
    need<HTMLDialogElement>(this, 'dialog').addEventListener('close', () => void this.#answered());
    void this.#open();
  }

  async #open(): Promise<void> {
    this.#logbook = await openLogbook();
    await this.#show();
    this.dataset['ready'] = '';
  }

  #choices(): void {
    const form = need<HTMLFormElement>(this, '.settings-form');
    this.#check('units', settings.units());
    this.#check('eyes', settings.eyes());
    this.#check('theme', settings.theme());
    need<HTMLInputElement>(form, '[name=sound]').checked = settings.sound();
    form.addEventListener('change', ({ target }) => {
      const field = target as HTMLInputElement;
      if (field.name === 'units') settings.setUnits(field.value === 'us' ? 'us' : 'metric');
      if (field.name === 'eyes') settings.setEyes(EYES.find((eyes) => eyes === field.value) ?? 'full');
      if (field.name === 'sound') settings.setSound(field.checked);
      if (field.name === 'theme') {
        settings.setTheme(THEMES.find((theme) => theme === field.value) ?? 'auto');
        showTheme();
      }
      need(form, '[role=status]').textContent = 'Kept.';
    });
  }

  #check(name: string, value: string): void {
    need<HTMLInputElement>(this, `[name=${name}][value=${value}]`).checked = true;
  }

  async #show(): Promise<void> {
    const facts = await storedFacts(this.#logbook, base);
    const lines = facts.flatMap(({ name, text }) => [h('dt', {}, name), h('dd', {}, text)]);
    need(this, '.stored').replaceChildren(...lines);
  }

  async #persist(): Promise<void> {
    const granted = await persist();
    this.#say(
      granted === true
        ? 'The browser will not clear it by itself.'
        : 'The browser made no promise. It often does so once you visit more or have installed the site. Save everything to a file now and then.',
    );
    await this.#show();
  }

  async #keepSite(): Promise<void> {
    this.#say('Fetching what is missing...');
    try {
      await keepRest(base, () => true);
      const state = await askWorker(base, 'check');
      this.#say(
        state?.missing.length === 0
          ? 'The whole site works without a network now. Every file of it was compared with what the build made.'
          : 'Not all of it could be kept. Load this page again when there is a good network, then try once more.',
      );
    } catch {
      this.#say('That needs a network. Try again when there is one.');
    }
    await this.#show();
  }

  async #save(): Promise<void> {
    try {
      const { exportAsItIs, exportJson } = await import('../keep/export.ts');
      await (this.#logbook.store.kind === 'newer' ? exportAsItIs() : exportJson(this.#logbook));
      this.#say('Saved to your downloads.');
    } catch (error) {
      this.#say(failureText(toStoreError(error).failure));
    }
  }

  async #ask(): Promise<void> {
    need(this, '.erase-what').textContent = await contentLine(this.#logbook);
    const dialog = need<HTMLDialogElement>(this, 'dialog');
    dialog.returnValue = '';
    dialog.showModal();
  }

  async #answered(): Promise<void> {
    if (need<HTMLDialogElement>(this, 'dialog').returnValue !== 'erase') return;
    const said = need(this, '.erase-said');
    try {
      await this.#logbook.erase();
      forgetAll();
      if (need<HTMLInputElement>(this, 'dialog [name=site]').checked) await forgetSite(base);
      showTheme();
      said.textContent = 'Everything is erased.';
      await this.#show();
    } catch (error) {
      said.textContent = failureText(toStoreError(error).failure);
    }
  }

  #say(text: string): void {
    need(this, '.stored-said').textContent = text;
  }
}

customElements.define('settings-desk', SettingsDesk);
