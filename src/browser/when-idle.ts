/** Work that a visitor doesn't wait for: once the page has come whole and shows, and has nothing else to do. */

/** The longest wait after the page has come, ms; browsers that can't tell when they are idle wait that long. */
const LONGEST_MILLIS = 1000;

export function whenIdle(work: () => void): void {
  if (document.readyState === 'complete') start(work);
  else window.addEventListener('load', () => start(work), { once: true });
}

function start(work: () => void): void {
  if ('requestIdleCallback' in window) requestIdleCallback(work, { timeout: LONGEST_MILLIS });
  else setTimeout(work, LONGEST_MILLIS);
}
