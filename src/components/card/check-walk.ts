/** The walk that checks a print and a phone: photos of the empty card, what they say, and a file to save. */
import { decodePhoto } from '../../browser/decode.ts';
import { keepPhoneNoise } from '../../browser/phone-noise.ts';
import { remembered } from '../../browser/remembered.ts';
import { keptScales } from '../../browser/scales.ts';
import { saveFile } from '../../browser/save-file.ts';
import { TeachClient } from '../../browser/teach-client.ts';
import { checkPrint, noiseOf, printCheckFile, usualStep } from '../../core/reading/check-print.ts';
import type { CardSamples } from '../../core/samples.ts';
import { photoMessage } from '../../words/photo.ts';
import { CHECK, findingText, noiseText, VERDICTS, worthText } from '../../words/print-check.ts';
import { refusalMessage, type ReasonMessage } from '../../words/reading.ts';
import { h, need } from '../dom.ts';

const PHOTOS = 3;

class CheckWalk extends HTMLElement {
  readonly #client = new TeachClient();
  #cards: CardSamples[] = [];

  connectedCallback(): void {
    this.append(...walkForm());
    const input = need<HTMLInputElement>(this, 'input[type=file]');
    input.addEventListener('change', () => {
      const files = [...(input.files ?? [])];
      input.value = '';
      void this.#take(files);
    });
    need<HTMLInputElement>(this, 'input[type=number]').addEventListener('input', () => void this.#show());
    need(this, '[data-again]').addEventListener('click', () => {
      this.#cards = [];
      need(this, '.found').replaceChildren();
      this.#say(CHECK.again);
      input.focus();
    });
    addEventListener('pagehide', () => this.#client.close());
  }

  async #take(files: readonly File[]): Promise<void> {
    for (const file of files) {
      this.#say(CHECK.looking);
      try {
        const problem = await this.#add(file);
        if (problem) return this.#say(`${problem.wrong} ${problem.remedy}`);
      } catch (error) {
        console.error(error);
        return this.#say(CHECK.failed);
      }
    }
    await this.#show();
  }

  /** @returns why it can't be used */
  async #add(file: File): Promise<ReasonMessage | null> {
    const decoded = await decodePhoto(file);
    if (!decoded.ok) return photoMessage(decoded.failure);
    const opened = await this.#client.openCard(decoded.picture);
    if (!opened.ok) return refusalMessage(opened.reason);
    const marks = [...this.#cards, opened.found].flatMap(({ printMark }) => printMark ?? []);
    if (new Set(marks).size > 1) return CHECK.twoPrints;
    this.#cards = [...this.#cards, opened.found].slice(-PHOTOS);
    return null;
  }

  async #show(): Promise<void> {
    if (this.#cards.length === 0) return;
    const rule = need<HTMLInputElement>(this, 'input[type=number]').valueAsNumber;
    const check = checkPrint(this.#cards, Number.isFinite(rule) ? rule : null);
    const scale = await this.#scale();
    const file = `${JSON.stringify(printCheckFile(this.#cards, check), null, 1)}\n`;
    const save = h('button', { type: 'button' }, CHECK.save);
    save.addEventListener('click', () => saveFile('dipwise-print-check.json', [file], 'application/json'));
    const items = check.findings.map((one) => {
      const { name, found, remedy } = findingText(one);
      return h('li', {}, h('strong', {}, `${name}: ${VERDICTS[one.verdict]}`), ` – ${found}. ${remedy}`);
    });
    need(this, '.found').replaceChildren(
      h('ul', {}, ...items),
      h('p', {}, worthText(check, scale.name, scale.step)),
      h('details', {}, h('summary', {}, CHECK.show), h('p', {}, CHECK.holds), h('pre', { tabindex: 0 }, file), save),
    );
    const isDone = this.#cards.length === PHOTOS && check.left !== null;
    if (isDone) keepPhoneNoise(noiseOf(check));
    this.#say([CHECK.seen(this.#cards.length, PHOTOS), isDone ? noiseText(noiseOf(check)) : ''].join(' '));
  }

  /** The one last read with, else the visitor's first, else a practice scale. */
  async #scale(): Promise<{ name: string; step: number }> {
    const { scales } = await keptScales();
    const own = scales.find(({ id }) => id === remembered('scale')) ?? scales[0];
    if (own) return { name: own.name, step: usualStep(own) };
    return { name: this.dataset['scale']!, step: Number(this.dataset['step']) };
  }

  #say(text: string): void {
    need(this, '[role=status]').textContent = text;
  }
}

function walkForm(): HTMLElement[] {
  const photos = h('input', { id: 'check-photos', type: 'file', accept: 'image/*', multiple: true });
  const rule = { id: 'check-rule', type: 'number', inputmode: 'decimal', min: 30, max: 70, step: 0.1 } as const;
  return [
    h('p', {}, h('label', { for: 'check-photos' }, CHECK.photos), photos),
    h('p', {}, h('label', { for: 'check-rule' }, CHECK.rule), h('input', rule)),
    h('p', { class: 'hint', role: 'status' }),
    h('div', { class: 'found' }),
    h('p', {}, h('button', { type: 'button', class: 'plain', 'data-again': true }, CHECK.startAgain)),
  ];
}

customElements.define('check-walk', CheckWalk);
