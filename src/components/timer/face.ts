/** The running timer's face: the step in words, the time left, and a bar that shrinks. */
import { type DipMoment, DIP_PHASES, type DipTimes, momentAt, phasesOf } from '../../core/dip/phases.ts';
import { h, say } from '../dom.ts';
import { phaseWords, secondsText } from '../../words/timer.ts';

/** The bar is drawn anew this often; its own transition fills in between. */
export const TICK_MILLIS = 200;

export class TimerFace {
  readonly element: HTMLElement;
  readonly #word = h('p', { class: 'timer-word' });
  readonly #left = h('strong', {});
  readonly #until = h('span', { class: 'timer-until' });
  readonly #bar = h('div', { class: 'timer-bar-left' });
  readonly #todo = h('p', { class: 'timer-todo' });
  readonly #calm = matchMedia('(prefers-reduced-motion: reduce)');

  constructor() {
    this.element = h(
      'div',
      { class: 'timer-face' },
      this.#word,
      h('p', { class: 'timer-left', role: 'timer', 'aria-live': 'off' }, this.#left, ' ', this.#until),
      h('div', { class: 'timer-bar', 'aria-hidden': 'true' }, this.#bar),
      this.#todo,
    );
  }

  /** @returns the moment that is shown now */
  show(times: DipTimes, secondsSinceDip: number, isRead: boolean): DipMoment {
    const moment = momentAt(times, secondsSinceDip);
    const { phase, leftSeconds, wholeSeconds } = moment;
    const { word, todo, until } = phaseWords(phase, isRead);
    const shown = secondsText(leftSeconds ?? Math.floor(secondsSinceDip - times.readBeforeSeconds));
    this.element.dataset['phase'] = phase;
    say(this.#word, word);
    say(this.#left, shown);
    say(this.#until, until);
    say(this.#todo, todo);
    // Where motion is unwelcome the bar moves with the number, not between.
    const left = leftSeconds !== null && this.#calm.matches ? Math.ceil(leftSeconds) : leftSeconds;
    this.#bar.style.width = left === null ? '0' : `${Math.min(100, (100 * left) / wholeSeconds!).toFixed(1)}%`;
    return moment;
  }
}

/** The steps as a list that is ticked off. */
export function stepList(times: DipTimes, moment: DipMoment): HTMLElement[] {
  const now = DIP_PHASES.indexOf(moment.phase);
  return phasesOf(times)
    .filter(({ phase }) => phase !== 'past')
    .map(({ phase }) => {
      const at = DIP_PHASES.indexOf(phase);
      const state = at < now ? 'done' : at === now ? 'now' : 'later';
      const step = h('li', { class: state, 'aria-current': state === 'now' ? 'step' : null }, phaseWords(phase).step);
      if (state === 'done') step.append(h('span', { class: 'visually-hidden' }, ' done'));
      return step;
    });
}
