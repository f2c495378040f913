/** On the home page, before all else: the plan that is under way, and what comes next in it. */
import { openPlanMark, planHash } from '../../browser/open-plan.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';

/** A test that was due so long ago has most likely been made, or given up. */
const TEST_STANDS_MILLIS = 3 * 86_400_000;

class OpenPlan extends HTMLElement {
  connectedCallback(): void {
    void this.#show();
    addEventListener('pageshow', () => void this.#show());
    addEventListener('storage', () => void this.#show());
  }

  /** The sentences come where there is a plan: most who come in have none. */
  async #show(): Promise<void> {
    const mark = openPlanMark();
    const isOld = mark?.kind === 'test' && Date.parse(mark.from ?? '') + TEST_STANDS_MILLIS < Date.now();
    if (!mark || isOld) return this.replaceChildren();
    const { GO_ON, kindTitle, nextText, openPlanText } = await import('../../words/kept-plan.ts');
    this.replaceChildren(
      h(
        'section',
        { class: 'open-plan', 'aria-label': GO_ON },
        h(
          'p',
          { class: 'lead' },
          `${openPlanText(mark.done)} ${nextText(kindTitle(mark.kind), mark.from, new Date())}`,
        ),
        h('p', {}, h('a', { class: 'button primary', href: href(`plan/${planHash(mark.id)}`) }, GO_ON)),
      ),
    );
  }
}

customElements.define('open-plan', OpenPlan);
