/** Keeps the screen lit while something is being waited for, where the browser can. */

export class WakeLock {
  #wanted = false;
  #held: WakeLockSentinel | null = null;

  constructor() {
    // The browser takes the lock back whenever the page is hidden.
    document.addEventListener('visibilitychange', () => void this.#take());
  }

  hold(): void {
    this.#wanted = true;
    void this.#take();
  }

  release(): void {
    this.#wanted = false;
    void this.#held?.release();
    this.#held = null;
  }

  async #take(): Promise<void> {
    if (!this.#wanted || document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
    if (this.#held && !this.#held.released) return;
    try {
      const held = await navigator.wakeLock.request('screen');
      if (this.#wanted) this.#held = held;
      else void held.release();
    } catch {
      // Refused, such as on a low battery: the wall clock tells the time all the same.
    }
  }
}
