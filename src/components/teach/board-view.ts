/** Keeps a place of the enlarged photo in sight: within its frame, and the frame within the window. */

/** CSS px between the place and the edge. */
const MARGIN = 60;

/** @param x, y within the sheet that the frame scrolls, CSS px */
export function keepInSight(frame: HTMLElement, sheet: HTMLElement, x: number, y: number): void {
  const side = (at: number, scroll: number, size: number) =>
    Math.min(at - MARGIN, Math.max(at + MARGIN - size, scroll));
  frame.scrollTo(side(x, frame.scrollLeft, frame.clientWidth), side(y, frame.scrollTop, frame.clientHeight));
  const top = sheet.getBoundingClientRect().top + y;
  window.scrollBy(0, Math.min(0, top - MARGIN) + Math.max(0, top + MARGIN - window.innerHeight));
}
