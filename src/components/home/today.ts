/** On the home page of somebody who keeps a logbook: today's answer, and what the last reading said. */
import { h, need } from '../dom.ts';

class PoolToday extends HTMLElement {
  connectedCallback(): void {
    // Set before the first paint; see public/theme.js.
    if (!('returning' in document.documentElement.dataset)) return;
    void this.#show();
    window.addEventListener('pageshow', ({ persisted }) => persisted && void this.#show());
  }

  async #show(): Promise<void> {
    try {
      const { todayView } = await import('./today-view.ts');
      const view = await todayView();
      if (!view) return this.#asNewcomer();
      need(this, '.swim').replaceChildren(...view.swim);
      need(this, '.rest').replaceChildren(...view.rest);
      if (view.pool !== null) need(document, 'h1 .pool').textContent = `${view.pool} today`;
    } catch (error) {
      console.error(error);
      need(this, '.swim').replaceChildren(h('p', { role: 'status' }, FAILED));
    }
    this.dataset['ready'] = '';
  }

  /** The logbook was emptied, or thrown away by the browser. */
  #asNewcomer(): void {
    delete document.documentElement.dataset['returning'];
  }
}

const FAILED = 'The logbook can’t be opened here just now. Nothing in it is lost by that.';

customElements.define('pool-today', PoolToday);
