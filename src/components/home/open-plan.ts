/** On the home page, before all else: the plan that is under way, and what comes next in it. */
import { OPEN_PLAN_EVENT, openPlanMark, planHash } from '../../browser/open-plan.ts';
import { stillStands } from '../../core/log/plan-left.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';

class OpenPlan extends HTMLElement {
  connectedCallback(): void {
    void this.#show();
    addEventListener('pageshow', () => void this.#show());
    addEventListener('storage', () => void this.#show());
    addEventListener(OPEN_PLAN_EVENT, () => void this.#show());
  }

  /** The sentences come where there is a plan: most who come in have none. */
  async #show(): Promise<void> {
    const mark = openPlanMark();
    const now = new Date();
    if (!mark || !stillStands(mark, now.toISOString())) return this.replaceChildren();
    const { GO_ON, underWayText } = await import('../../words/kept-plan.ts');
    this.replaceChildren(
      h(
        'section',
        { class: 'open-plan', 'aria-label': GO_ON },
        h('p', { class: 'lead' }, underWayText(mark.done, mark.kind, mark.from, now)),
        h('p', {}, h('a', { class: 'button primary', href: href(`plan/${planHash(mark.id)}`) }, GO_ON)),
      ),
    );
  }
}

customElements.define('open-plan', OpenPlan);
