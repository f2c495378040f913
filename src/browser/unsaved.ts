/** Whether the page holds something that loading it again would lose, such as a reading that isn't kept yet. */

const holders = new Set<object>();
const listeners = new Set<() => void>();

/** @returns lets go of it */
export function holdPage(): () => void {
  const holder = {};
  holders.add(holder);
  return () => {
    if (holders.delete(holder) && holders.size === 0) for (const listener of listeners) listener();
  };
}

export function isPageHeld(): boolean {
  return holders.size > 0;
}

export function onPageFree(listener: () => void): void {
  listeners.add(listener);
}
