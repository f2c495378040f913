/** Match by eye: a hidden value, a pad, a chart to choose from, and what the choice was worth. */
import { labToSrgb, type Triple } from '../../core/colour/lab.ts';
import { doseOfError } from '../../core/match/dose.ts';
import { appearance, EYES, LIGHTS, type LearnerEyes, type Light } from '../../core/match/look.ts';
import { choicesOf, newRound, type Round, valueOfChoice } from '../../core/match/round.ts';
import type { ScalePad } from '../../core/scale/schema.ts';
import type { Water } from '../../core/water/water.ts';
import { choiceText, classText, doseText, photoText, publishedText, truthAndEyeText } from '../../words/match.ts';
import { h, need } from '../dom.ts';
import { renderRibbon } from '../ribbon/drawing.ts';
import { toElement } from '../svg.ts';
import { drawDots } from './dot-plot.ts';
import { curveThrough } from '../../core/scale/curve.ts';

interface Data {
  readonly pads: readonly ScalePad[];
  readonly water: Water;
  readonly litres: number;
}

class MatchDesk extends HTMLElement {
  #data!: Data;
  #round!: Round;
  /** Choices of everybody who looked at this strip, in blocks. Kept by this page alone, and gone with it. */
  #chosen: number[] = [];

  connectedCallback(): void {
    this.#data = JSON.parse(need(this, 'script[data-desk]').textContent) as Data;
    const settings = need<HTMLFormElement>(this, '.match-settings');
    settings.addEventListener('change', ({ target }) => {
      if ((target as HTMLSelectElement).name === 'pad') this.#newStrip();
      else this.#drawBoard();
    });
    settings.addEventListener('submit', (event) => event.preventDefault());
    this.#newStrip();
    this.dataset['ready'] = '';
  }

  #setting(name: string): string {
    return need<HTMLSelectElement>(this, `[name=${name}]`).value;
  }

  get #pad(): ScalePad {
    return this.#data.pads.find(({ parameter }) => parameter === this.#setting('pad'))!;
  }

  #newStrip(): void {
    this.#round = newRound(this.#pad, Math.random);
    this.#chosen = [];
    this.#answer().replaceChildren();
    this.#drawBoard();
  }

  #drawBoard(): void {
    const light = LIGHTS.find((one) => one === this.#setting('light'))!;
    const eyes = EYES.find((one) => one === this.#setting('eyes'))!;
    const colour = (lab: Triple) => cssColour(lab, light, eyes);
    need<HTMLElement>(this, '.swatch').style.backgroundColor = colour(this.#round.lab);
    const pad = this.#pad;
    const rows = choicesOf(pad).map((block) => {
      const isBlock = Number.isInteger(block);
      const name = choiceText(pad, block);
      const button = h('button', { type: 'button', 'aria-label': name }, isBlock ? name : 'between');
      button.addEventListener('click', () => this.#choose(block));
      const swatch = h('span', { class: 'block', 'aria-hidden': 'true' });
      if (isBlock) swatch.style.backgroundColor = colour(pad.blocks[block]!.lab);
      return h('li', { class: isBlock ? 'whole' : 'half' }, isBlock ? swatch : null, button);
    });
    need(this, '.match-chart').replaceChildren(...rows);
    need<HTMLElement>(this, '.match-board').hidden = false;
  }

  #choose(block: number): void {
    const pad = this.#pad;
    const { value, photo } = this.#round;
    this.#chosen.push(block);
    need<HTMLElement>(this, '.match-board').hidden = true;
    const { parameter } = pad;
    const read = valueOfChoice(pad, block);
    const dose = doseOfError(parameter, read, value, this.#data.water, this.#data.litres);
    const next = h('button', { type: 'button', class: 'primary' }, 'Next person, same strip');
    next.addEventListener('click', () => {
      this.#answer().replaceChildren();
      this.#drawBoard();
      this.#chart.querySelector('button')?.focus();
    });
    const fresh = h('button', { type: 'button' }, 'A new strip');
    fresh.addEventListener('click', () => {
      this.#newStrip();
      this.#chart.querySelector('button')?.focus();
    });
    const said = photoText(parameter, photo);
    const ribbon = renderRibbon(
      { pad, target: null, estimates: photo.matched ? [photo.best] : [], offScale: photo.offScale },
      said,
    );
    const heading = h('h2', { tabindex: -1 }, 'What it was');
    this.#answer().replaceChildren(
      heading,
      h(
        'p',
        { class: 'match-result' },
        truthAndEyeText(parameter, value, choiceText(pad, block), block - this.#round.block),
      ),
      h('p', {}, said),
      h('div', { class: 'ribbon-frame' }, ribbon),
      h('p', {}, doseText(dose, this.#data.litres)),
      h('h3', {}, 'Everybody so far'),
      toElement(drawDots(this.#dots(), classText(this.#errors()))),
      h('p', {}, `${classText(this.#errors())} ${publishedText(parameter, value)}`),
      h('p', { class: 'match-next no-print' }, next, fresh),
    );
    heading.focus({ preventScroll: true });
    this.#answer().scrollIntoView({ block: 'start' });
  }

  #dots() {
    const { photo, block: truth } = this.#round;
    const curve = curveThrough(this.#pad);
    const last = this.#pad.blocks.length - 1;
    const at = (value: number) => Math.min(last, Math.max(0, curve.blockAt(curve.positionOf(value))));
    const span = photo.matched ? { from: at(photo.best.low), to: at(photo.best.high) } : null;
    return { pad: this.#pad, chosen: this.#chosen, truth, photo: span };
  }

  #errors(): number[] {
    return this.#chosen.map((block) => block - this.#round.block);
  }

  get #chart(): HTMLElement {
    return need(this, '.match-chart');
  }

  #answer(): HTMLElement {
    return need(this, '.match-answer');
  }
}

function cssColour(lab: Triple, light: Light, eyes: LearnerEyes): string {
  const [r, g, b] = labToSrgb(appearance(lab, light, eyes)).map((x) => Math.round(255 * Math.min(1, Math.max(0, x))));
  return `rgb(${r} ${g} ${b})`;
}

customElements.define('match-desk', MatchDesk);
