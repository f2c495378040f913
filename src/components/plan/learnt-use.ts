/** Where the plan is offered what the logbook has learnt: once somebody opens the part of the form it stands in. */
import { need } from '../dom.ts';

class LearntUse extends HTMLElement {
  connectedCallback(): void {
    const part = this.closest('details')!;
    const offer = async () => {
      if (!part.open) return;
      part.removeEventListener('toggle', offer);
      try {
        const { offerLearnt } = await import('./learnt-offer.ts');
        await offerLearnt(this);
      } catch {
        need(this, '.offer').textContent = 'The logbook could not be opened, so what it has learnt is left out.';
      }
    };
    part.addEventListener('toggle', offer);
    void offer();
  }
}

customElements.define('learnt-use', LearntUse);
