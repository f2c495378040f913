/** The search box of the explainers. The index comes when the box is first used. */
import { h, need } from '../dom.ts';
import type { Found } from './search.ts';

class SearchElement extends HTMLElement {
  #search: Promise<(query: string) => Found[]> | null = null;
  #asked = 0;

  connectedCallback(): void {
    const input = need<HTMLInputElement>(this, 'input');
    input.addEventListener('focus', () => void this.#open(), { once: true });
    input.addEventListener('input', () => void this.#show(input.value.trim()));
    need(this, 'form').addEventListener('submit', (event) => event.preventDefault());
  }

  #open(): Promise<(query: string) => Found[]> {
    this.#search ??= (async () => {
      const [{ openIndex }, response] = await Promise.all([import('./search.ts'), fetch(`${this.#root}search.json`)]);
      if (!response.ok) throw new Error(`the search index answered ${response.status}`);
      return openIndex(await response.text());
    })();
    return this.#search;
  }

  get #root(): string {
    return this.dataset['root'] ?? '';
  }

  async #show(query: string): Promise<void> {
    const turn = ++this.#asked;
    const list = need(this, 'ul');
    const count = need(this, '[role=status]');
    if (query.length < 2) {
      list.replaceChildren();
      count.textContent = '';
      return;
    }
    try {
      const search = await this.#open();
      if (turn !== this.#asked) return;
      const found = search(query);
      list.replaceChildren(...found.map((each) => this.#row(each)));
      count.textContent = found.length === 0 ? `Nothing on ‘${query}’.` : `${found.length} places`;
    } catch {
      this.#search = null;
      count.textContent = 'The search could not be loaded. The list below has every page.';
    }
  }

  #row({ id, page, section }: Found): HTMLLIElement {
    return h('li', {}, h('a', { href: `${this.#root}${id}` }, page), section ? ` · ${section}` : null);
  }
}

customElements.define('learn-search', SearchElement);
