/** Builds an element: attributes as written in HTML, `true` for a bare one, and `false` or null left out. */
export function h<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Readonly<Record<string, string | number | boolean | null>> = {},
  ...children: (Node | string | null)[]
): HTMLElementTagNameMap[Tag] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === null) continue;
    element.setAttribute(name, value === true ? '' : String(value));
  }
  element.append(...children.filter((child) => child !== null));
  return element;
}

/** Puts words where they are announced; the same ones again would be read aloud again. */
export function say(region: Element, text: string): void {
  if (region.textContent !== text) region.textContent = text;
}

/** What has come lies at the top of the screen, and what reads aloud begins at its heading. */
export function lookAt(part: HTMLElement): void {
  part.querySelector<HTMLElement>('h2')?.focus({ preventScroll: true });
  part.scrollIntoView({ block: 'start' });
}

/** Empties an element but for one child. Canvases free their pixels at once here, because browsers free them late. */
export function clear(root: Element, keep: Element | null = null): void {
  for (const child of [...root.children]) {
    if (child === keep) continue;
    freeCanvases(child);
    child.remove();
  }
}

export function freeCanvases(root: Element): void {
  if (root instanceof HTMLCanvasElement) root.width = 0;
  for (const canvas of root.querySelectorAll('canvas')) canvas.width = 0;
}

/** The element of a page's own markup; its absence is a mistake in the page, not something to live with. */
export function need<Type extends Element>(root: ParentNode, selector: string): Type {
  const found = root.querySelector<Type>(selector);
  if (!found) throw new Error(`the page has no ${selector}`);
  return found;
}
