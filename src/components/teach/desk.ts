/** The element behind the teaching page: chart, strip, check, one after the other. */
import { remember } from '../../browser/remembered.ts';
import type { KeptWhere } from '../../browser/scales.ts';
import { TeachClient } from '../../browser/teach-client.ts';
import type { StripScale } from '../../core/scale/schema.ts';
import { NEXT_STEP_FAILED } from '../../words/teach.ts';
import { need } from '../dom.ts';
import type { ChartResult } from './chart-result.ts';
import { ChartStep } from './chart-step.ts';
import type { CheckStep } from './check-step.ts';
import type { StripStep, StripTimes } from './strip-step.ts';
import type { StripResult } from './strip-draft.ts';

/** Of the address: the id of a scale that gets another photo. */
const ADD = 'add';
const SCALE_KEY = 'scale';

type NextSteps = typeof import('./next-steps.ts') & { readonly strip: StripStep; readonly check: CheckStep };

class TeachDesk extends HTMLElement {
  readonly #client = new TeachClient();
  #chartStep!: ChartStep;
  #next: Promise<NextSteps> | null = null;
  #chart: ChartResult | null = null;
  #known: StripScale | null = null;
  #taken = new Set<string>();
  #saved = false;

  connectedCallback(): void {
    this.#chartStep = new ChartStep(need(this, '.chart-step'), this.#client, (chart) => void this.#charted(chart));
    for (const begun of ['click', 'change']) {
      this.addEventListener(begun, () => void this.#nextSteps().catch(() => undefined), { once: true });
    }
    // A page that can come back keeps its photo: blocks may be marked in it already.
    window.addEventListener('pagehide', ({ persisted }) => persisted || this.#client.close());
    window.addEventListener('beforeunload', (event) => {
      if (this.#chartStep.marked && !this.#saved) event.preventDefault();
    });
    void this.#begin();
  }

  async #begin(): Promise<void> {
    const add = new URLSearchParams(location.search).get(ADD);
    if (add !== null) {
      const { keptScales } = await this.#nextSteps();
      const known = (await keptScales()).scales.find(({ id }) => id === add);
      if (known) this.#addTo(known);
    }
    this.dataset['ready'] = '';
  }

  /** @throws when they can't be fetched; the next call tries again */
  #nextSteps(): Promise<NextSteps> {
    this.#next ??= this.#fetchNext().catch((error: unknown) => {
      this.#next = null;
      throw error;
    });
    return this.#next;
  }

  async #fetchNext(): Promise<NextSteps> {
    const parts = await import('./next-steps.ts');
    const { scales } = await parts.keptScales();
    this.#taken = new Set([...scales.map(({ id }) => id), ...(this.dataset['practice'] ?? '').split(' ')]);
    const strip = new parts.StripStep(need(this, '.strip-step'), this.#client, (result, times) => {
      void this.#described(result, times);
    });
    return {
      ...parts,
      strip,
      check: new parts.CheckStep(need(this, '.check-step'), (scale, where) => this.#keep(scale, where)),
    };
  }

  #addTo(scale: StripScale): void {
    this.#known = scale;
    this.#chartStep.addTo(scale);
    const line = need<HTMLElement>(this, '.adding');
    line.hidden = false;
    need(line, 'strong').textContent = scale.name;
  }

  async #charted(chart: ChartResult): Promise<void> {
    this.#chart = chart;
    const known = this.#known;
    try {
      const { addLight, check, strip } = await this.#nextSteps();
      if (known) check.show((_name, light) => addLight(known, chart, light), known.name);
      else strip.show(chart);
    } catch (error) {
      console.error(error);
      need(this, '.rows-said').textContent = NEXT_STEP_FAILED;
    }
  }

  async #described(strip: StripResult, times: StripTimes): Promise<void> {
    const chart = this.#chart!;
    const { buildScale, check } = await this.#nextSteps();
    check.show((name, light) => buildScale({ name, light, chart, strip, times, taken: this.#taken }), null);
  }

  #keep(scale: StripScale, where: KeptWhere): void {
    this.#saved = where === 'device';
    const done = need<HTMLElement>(this, '.done-step');
    done.hidden = false;
    if (where === 'device') remember(SCALE_KEY, scale.id);
    else this.#offerFile(scale, done);
    need<HTMLAnchorElement>(done, '[data-link=add]').search = `?${ADD}=${encodeURIComponent(scale.id)}`;
    for (const name of done.querySelectorAll('.kept-name')) name.textContent = scale.name;
    need<HTMLElement>(done, 'h2').focus();
  }

  /** What only this page holds is lost with it: every way on leads to another page. */
  #offerFile(scale: StripScale, done: HTMLElement): void {
    need(done, 'h2').textContent = 'The scale is made, but not kept';
    need<HTMLElement>(done, '.on-device').hidden = true;
    need<HTMLElement>(done, '.only-here').hidden = false;
    need(done, '[data-save]').addEventListener('click', () => {
      void import('../scale/save-scale.ts').then(({ saveScale }) => saveScale(scale)).then(() => (this.#saved = true));
    });
  }
}

customElements.define('teach-desk', TeachDesk);
