/** Where the strip's pads are, from a photo or a ruler, and when they are to be read. */
import type { Opening, TeachClient } from '../../browser/teach-client.ts';
import { linearToLab, type Triple } from '../../core/colour/lab.ts';
import { fitNeutrals } from '../../core/colour/neutrals.ts';
import type { PadQuantity } from '../../core/measurement/quantities.ts';
import { refusalMessage } from '../../words/reading.ts';
import { quantityName, quantityTitle } from '../../words/quantities.ts';
import { matchPads } from '../../core/scale/match.ts';
import type { StripFound } from '../../vision/messages.ts';
import { h, need } from '../dom.ts';
import { cardPicture } from '../photo/card-picture.ts';
import type { ChartResult } from './chart-result.ts';
import { type Opened, PhotoEntry } from './photo-entry.ts';
import { readMillimetres } from './rows.ts';
import {
  emptyDraft,
  evenlySpaced,
  finishStrip,
  fromProposal,
  type PadDraft,
  type StripDraft,
  type StripProblem,
  type StripResult,
  turnedRound,
  withPadCount,
} from './strip-draft.ts';
import { PLAUSIBLE } from '../../core/typed/plausible.ts';
import { NO_SECONDS } from '../../words/teach.ts';
import { isAsking, typedNumber } from '../typed.ts';

export interface StripTimes {
  readonly dipSeconds: number;
  readonly readAfterSeconds: number;
  readonly readBeforeSeconds: number;
}

export class StripStep {
  readonly #root: HTMLElement;
  readonly #client: TeachClient;
  readonly #entry: PhotoEntry;
  readonly #onReady: (strip: StripResult, times: StripTimes) => void;
  #chart: ChartResult | null = null;
  #draft: StripDraft = emptyDraft([]);
  /** The photo's own pads, while the draft still rests on them. */
  #found: StripFound | null = null;

  constructor(root: HTMLElement, client: TeachClient, onReady: (strip: StripResult, times: StripTimes) => void) {
    this.#root = root;
    this.#client = client;
    this.#onReady = onReady;
    this.#entry = new PhotoEntry(root, (photo) => this.#open(photo));
    need(root, '[data-do=turn]').addEventListener('click', () => this.#set(turnedRound(this.#draft)));
    need(root, '[data-do=even]').addEventListener('click', () => this.#space());
    need(root, '[data-do=strip-done]').addEventListener('click', () => this.#finish());
    this.#field('pad-count').addEventListener('change', () => this.#recount());
    for (const [name, key] of [
      ['strip-length', 'lengthMm'],
      ['strip-width', 'widthMm'],
    ] as const) {
      const input = this.#field(name);
      input.addEventListener('input', () => (this.#draft = { ...this.#draft, [key]: input.value }));
    }
  }

  /** Opens the step for a chart's rows; what has been filled in stays when the rows are still the same. */
  show(chart: ChartResult): void {
    const before = this.#chart?.rows.map(({ parameter }) => parameter).join();
    this.#chart = chart;
    this.#root.hidden = false;
    if (before !== this.#parameters.join()) {
      this.#draft = emptyDraft(this.#parameters);
      this.#field('pad-count').value = String(this.#parameters.length);
      this.#found = null;
    }
    this.#draw();
    need<HTMLElement>(this.#root, 'h2').focus();
  }

  get #parameters(): readonly PadQuantity[] {
    return this.#chart?.rows.map(({ parameter }) => parameter) ?? [];
  }

  async #open({ picture }: Opened): Promise<void> {
    this.#entry.say('Finding the strip and its pads…');
    let opening: Opening<StripFound>;
    try {
      opening = await this.#client.openStrip(picture, this.#draft.pads.length);
    } catch (error) {
      console.error(error);
      return this.#entry.refuse({ wrong: 'The reader stopped before it was done.', remedy: 'Choose the photo again.' });
    }
    if (!opening.ok) return this.#entry.refuse(refusalMessage(opening.reason));
    this.#found = opening.found;
    const { order, matched } = this.#orderOf(opening.found);
    this.#entry.say(
      matched
        ? 'The strip was found, and its pads matched to the rows of the chart by colour. Check that each is right.'
        : 'The strip was found. Check that each pad measures what is chosen for it: pad 1 is the one at the tip.',
    );
    this.#set(fromProposal(opening.found.strip, order));
  }

  /** Which row each pad belongs to, by colour where that is clear, else in the chart's own order. */
  #orderOf({ samples, strip }: StripFound): { order: (PadQuantity | null)[]; matched: boolean } {
    const correction = fitNeutrals(samples);
    const pads = strip.pads.map(({ sample }): Triple =>
      linearToLab(correction.toLinear(sample.rgb, sample.xMm, sample.yMm)),
    );
    const match = matchPads(
      pads,
      this.#chart!.rows.map(({ labs }) => labs),
    );
    const order = pads.map((_, i) => this.#parameters[match ? match[i]! : i] ?? null);
    return { order, matched: match !== null };
  }

  #recount(): void {
    const count = this.#field('pad-count').valueAsNumber;
    if (!Number.isInteger(count) || count < this.#parameters.length || count > 12) return;
    this.#found = null;
    this.#set(withPadCount(this.#draft, count));
  }

  #space(): void {
    const fields = ['first-pad', 'pad-spacing', 'pad-length'].map((name) => this.#field(name));
    const values = fields.map(({ value }) => readMillimetres(value));
    const bad = values.indexOf(null);
    if (bad >= 0) return fields[bad]!.focus();
    this.#found = null;
    this.#set(evenlySpaced(this.#draft, values[0]!, values[1]!, values[2]!));
  }

  #set(draft: StripDraft): void {
    this.#draft = draft;
    this.#draw();
  }

  #draw(): void {
    this.#field('strip-length').value = this.#draft.lengthMm;
    this.#field('strip-width').value = this.#draft.widthMm;
    need(this.#root, '.pad-table tbody').replaceChildren(...this.#draft.pads.map((pad, i) => this.#row(pad, i)));
    this.#drawPicture();
  }

  #row(pad: PadDraft, i: number): HTMLElement {
    const select = h(
      'select',
      { 'aria-label': `Pad ${i + 1} measures` },
      h('option', { value: '' }, 'not on the chart'),
      ...this.#parameters.map((id) => h('option', { value: id, selected: id === pad.parameter }, quantityTitle(id))),
    );
    select.addEventListener('change', () => {
      this.#change(i, { parameter: select.value === '' ? null : (select.value as PadQuantity) });
    });
    const number = (key: 'centre' | 'length', label: string) => {
      const input = h('input', {
        type: 'text',
        inputmode: 'decimal',
        autocomplete: 'off',
        value: pad[key],
        'aria-label': `Pad ${i + 1}, ${label}`,
      });
      input.addEventListener('input', () => {
        this.#change(i, { [key]: input.value });
        this.#drawPicture();
      });
      return input;
    };
    return h(
      'tr',
      {},
      h('th', { scope: 'row' }, String(i + 1)),
      h('td', {}, select),
      h('td', {}, number('centre', 'middle, in millimetres from the tip')),
      h('td', {}, number('length', 'length in millimetres')),
    );
  }

  #change(i: number, change: Partial<PadDraft>): void {
    this.#draft = { ...this.#draft, pads: this.#draft.pads.map((pad, k) => (k === i ? { ...pad, ...change } : pad)) };
  }

  /** The flattened card with the pads where the numbers put them. */
  #drawPicture(): void {
    const place = need(this.#root, '.strip-picture');
    if (!this.#found) return place.replaceChildren();
    const { flat, strip } = this.#found;
    const [ux, uy] = strip.along;
    const height = strip.pads[0]?.heightMm ?? strip.widthMm;
    const outlines = this.#draft.pads.map(({ centre, length }) => {
      const [at, half] = [readMillimetres(centre) ?? 0, (readMillimetres(length) ?? 0) / 2];
      const corner = (along: number, across: number): readonly [number, number] => [
        strip.endMm[0] + along * ux - across * uy,
        strip.endMm[1] + along * uy + across * ux,
      ];
      const [from, to, side] = [at - half, at + half, height / 2];
      return { outline: [corner(from, -side), corner(to, -side), corner(to, side), corner(from, side)] };
    });
    place.replaceChildren(cardPicture(flat, outlines));
  }

  #finish(): void {
    const said = need(this.#root, '.strip-said');
    const seen = this.#found && { card: this.#found.samples, base: this.#found.strip.base };
    const { result, problem } = finishStrip(this.#draft, this.#parameters, seen);
    if (problem) {
      said.textContent = stripProblemText(problem);
      return;
    }
    const form = need<HTMLFormElement>(this.#root, 'form.times');
    const times = {
      dipSeconds: this.#seconds('dip-seconds'),
      readAfterSeconds: this.#seconds('read-after'),
      readBeforeSeconds: this.#seconds('read-before'),
    };
    if (!form.reportValidity() || isAsking(form)) return;
    said.textContent = '';
    this.#onReady(result, times);
  }

  /** NaN, and said at the field, where no number of seconds stands in it. */
  #seconds(name: string): number {
    const field = this.#field(name);
    const { min, max } = PLAUSIBLE.seconds;
    const seconds = typedNumber(field, { min, max }) ?? NaN;
    const isGood = seconds >= min && seconds <= max;
    field.setCustomValidity(field.value === '' || isGood || isAsking(this.#root) ? '' : NO_SECONDS);
    return seconds;
  }

  #field(name: string): HTMLInputElement {
    return need(this.#root, `#${name}`);
  }
}

function stripProblemText(problem: StripProblem): string {
  switch (problem.code) {
    case 'strip-size':
      return 'Give the length and the width of the strip in millimetres, or choose a photo of it.';
    case 'pad-size':
      return `Give the middle and the length of pad ${problem.pad + 1} in millimetres, or choose a photo of the strip.`;
    case 'pad-twice':
      return `Pad ${problem.pad + 1} measures the same as another pad.`;
    case 'left-out':
      return `No pad measures ${problem.parameters.map(quantityName).join(', ')}: choose one for every row of the chart.`;
  }
}
