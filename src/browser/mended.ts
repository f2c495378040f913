/** Tells of a part of the site that had to be fetched again: from the code that notices to the code that tells the visitor. */

const EVENT = 'dipwise:mended';

export function tellMended(): void {
  window.dispatchEvent(new Event(EVENT));
}

export function onMended(listener: () => void): void {
  window.addEventListener(EVENT, listener);
}
