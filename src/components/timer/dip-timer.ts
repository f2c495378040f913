/** The dip timer of the read page. */
import { dipClock } from '../../browser/dip-clock.ts';
import { give, readySignals, SIGNALS } from '../../browser/signal.ts';
import { WakeLock } from '../../browser/wake-lock.ts';
import type { DipMoment, DipPhase, DipTimes } from '../../core/dip/phases.ts';
import { need } from '../dom.ts';
import { stepList, TICK_MILLIS, TimerFace } from './face.ts';
import { announcement, timesText } from '../../words/timer.ts';

const SIGNAL_OF: Partial<Record<DipPhase, keyof typeof SIGNALS>> = {
  dip: 'step',
  lift: 'now',
  read: 'now',
  past: 'over',
};

export class DipTimer extends HTMLElement {
  readonly #face = new TimerFace();
  readonly #wakeLock = new WakeLock();
  #times: DipTimes | null = null;
  #phase: DipPhase | null = null;
  #ticking: ReturnType<typeof setInterval> | undefined;

  connectedCallback(): void {
    need(this, '.timer-place').replaceWith(this.#face.element);
    need(this, '[data-start]').addEventListener('click', () => {
      readySignals();
      if (this.#times) dipClock.startDip(this.#times);
    });
    need(this, '[data-lifted]').addEventListener('click', () => {
      readySignals();
      dipClock.startLifted();
    });
    need(this, '[data-stop]').addEventListener('click', () => {
      dipClock.stop();
      need<HTMLElement>(this, '[data-start]').focus();
    });
    dipClock.addEventListener('change', this.#changed);
    document.addEventListener('visibilitychange', this.#tick);
  }

  disconnectedCallback(): void {
    dipClock.removeEventListener('change', this.#changed);
    document.removeEventListener('visibilitychange', this.#tick);
    clearInterval(this.#ticking);
    this.#wakeLock.release();
  }

  /** Those of the strip scale that is chosen. */
  set times(times: DipTimes) {
    this.#times = times;
    need(this, '.timer-plan').textContent = timesText(times);
    this.#phase = null;
    this.#changed();
  }

  readonly #changed = (): void => {
    const running = dipClock.isRunning;
    const before = need<HTMLElement>(this, '.timer-run').hidden;
    need<HTMLElement>(this, '.timer-rest').hidden = running;
    need<HTMLElement>(this, '.timer-run').hidden = !running;
    clearInterval(this.#ticking);
    if (!running) {
      this.#phase = null;
      this.#wakeLock.release();
      this.#say(before ? '' : 'The timer is stopped.');
      return;
    }
    // The button that was pressed is gone: the focus stays with the timer.
    if (before && this.contains(document.activeElement)) need<HTMLElement>(this, '[data-stop]').focus();
    this.#ticking = setInterval(this.#tick, TICK_MILLIS);
    this.#tick();
  };

  readonly #tick = (): void => {
    const seconds = dipClock.secondsSinceDip();
    if (seconds === null || !this.#times) return;
    const moment = this.#face.show(this.#times, seconds, dipClock.isRead);
    if (moment.phase !== this.#phase) this.#enter(moment, this.#times);
  };

  #enter(moment: DipMoment, times: DipTimes): void {
    const { phase, leftSeconds } = moment;
    // A phase that is already running after a reload or a change of scale is shown without its sound.
    const isNews = this.#phase !== null || (leftSeconds !== null && leftSeconds > moment.wholeSeconds! - 0.5);
    this.#phase = phase;
    need(this, '.timer-steps').replaceChildren(...stepList(times, moment));
    need(this, '[data-stop]').textContent = phase === 'past' ? 'Put the timer back' : 'Stop the timer';
    this.#say(announcement(phase, leftSeconds, dipClock.isRead));
    if (phase === 'past') this.#wakeLock.release();
    else this.#wakeLock.hold();
    const signal = SIGNAL_OF[phase];
    if (signal && isNews && !dipClock.isRead) give(signal);
  }

  #say(text: string): void {
    need(this, '[role=status]').textContent = text;
  }
}

customElements.define('dip-timer', DipTimer);
