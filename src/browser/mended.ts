/** That a part of the site had to be fetched again, from whoever notices to whoever tells the visitor. */

const EVENT = 'dipwise:mended';

export function tellMended(): void {
  window.dispatchEvent(new Event(EVENT));
}

export function onMended(listener: () => void): void {
  window.addEventListener(EVENT, listener);
}
