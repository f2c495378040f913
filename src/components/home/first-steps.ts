/** On the home page: which of the first four steps this device has gone. Nothing is asked of the logbook itself. */
import { hasLogbook } from '../../browser/open-plan.ts';
import { h } from '../dom.ts';
import { CARD_TAKEN_KEY, PLAN_FORM_KEY, remembered } from '../../browser/remembered.ts';

/** By what each step leaves behind. */
const STEPS: Readonly<Record<string, () => boolean>> = {
  card: () => remembered(CARD_TAKEN_KEY) !== null,
  // The practice scales' names begin alike; another one was taught or brought here.
  teach: () => !(remembered('scale') ?? 'practice').startsWith('practice'),
  read: hasLogbook,
  // The form as it was left there; a pool may stand in it that the logbook knows.
  plan: () => remembered(PLAN_FORM_KEY)?.includes('"shelf":{') === true,
};

class FirstSteps extends HTMLElement {
  connectedCallback(): void {
    this.#show();
    addEventListener('pageshow', () => this.#show());
  }

  #show(): void {
    const isAllDone = Object.values(STEPS).every((isDone) => isDone());
    this.closest<HTMLElement>('section')!.hidden = isAllDone && 'returning' in document.documentElement.dataset;
    for (const item of this.querySelectorAll<HTMLElement>('[data-step]')) {
      item.querySelector('.done')?.remove();
      if (STEPS[item.dataset['step']!]!()) item.append(' ', h('span', { class: 'done' }, '✓ done'));
    }
  }
}

customElements.define('first-steps', FirstSteps);
