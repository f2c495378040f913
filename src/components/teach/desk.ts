/** The element behind the teaching page: chart, strip, check, one after the other. */
import { remember } from '../../browser/remembered.ts';
import { keptScales } from '../../browser/scales.ts';
import { TeachClient } from '../../browser/teach-client.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { need } from '../dom.ts';
import { addLight, buildScale } from './build-scale.ts';
import type { ChartResult } from './chart-result.ts';
import { ChartStep } from './chart-step.ts';
import { CheckStep } from './check-step.ts';
import { StripStep, type StripTimes } from './strip-step.ts';
import type { StripResult } from './strip-draft.ts';

/** Of the address: the id of a scale that gets another photo. */
const ADD = 'add';
const SCALE_KEY = 'scale';

class TeachDesk extends HTMLElement {
  readonly #client = new TeachClient();
  #chartStep!: ChartStep;
  #stripStep!: StripStep;
  #checkStep!: CheckStep;
  #chart: ChartResult | null = null;
  #known: StripScale | null = null;
  #taken = new Set<string>();
  #saved = false;

  connectedCallback(): void {
    this.#chartStep = new ChartStep(need(this, '.chart-step'), this.#client, (chart) => this.#charted(chart));
    this.#stripStep = new StripStep(need(this, '.strip-step'), this.#client, (strip, times) =>
      this.#described(strip, times),
    );
    this.#checkStep = new CheckStep(need(this, '.check-step'), (scale) => this.#keep(scale));
    // A page that can come back keeps its photo: blocks may be marked in it already.
    window.addEventListener('pagehide', ({ persisted }) => persisted || this.#client.close());
    window.addEventListener('beforeunload', (event) => {
      if (this.#chartStep.marked && !this.#saved) event.preventDefault();
    });
    void this.#begin();
  }

  async #begin(): Promise<void> {
    const { scales } = await keptScales();
    this.#taken = new Set([...scales.map(({ id }) => id), ...(this.dataset['practice'] ?? '').split(' ')]);
    const add = new URLSearchParams(location.search).get(ADD);
    const known = scales.find(({ id }) => id === add);
    if (known) this.#addTo(known);
    this.dataset['ready'] = '';
  }

  #addTo(scale: StripScale): void {
    this.#known = scale;
    this.#chartStep.addTo(scale);
    const line = need<HTMLElement>(this, '.adding');
    line.hidden = false;
    need(line, 'strong').textContent = scale.name;
  }

  #charted(chart: ChartResult): void {
    this.#chart = chart;
    const known = this.#known;
    if (known) this.#checkStep.show((_name, light) => addLight(known, chart, light), known.name);
    else this.#stripStep.show(chart);
  }

  #described(strip: StripResult, times: StripTimes): void {
    const chart = this.#chart!;
    this.#checkStep.show((name, light) => buildScale({ name, light, chart, strip, times, taken: this.#taken }), null);
  }

  #keep(scale: StripScale): void {
    this.#saved = true;
    remember(SCALE_KEY, scale.id);
    const done = need<HTMLElement>(this, '.done-step');
    done.hidden = false;
    need<HTMLAnchorElement>(done, '[data-link=add]').search = `?${ADD}=${encodeURIComponent(scale.id)}`;
    need(done, '.kept-name').textContent = scale.name;
    need<HTMLElement>(done, 'h2').focus();
  }
}

customElements.define('teach-desk', TeachDesk);
