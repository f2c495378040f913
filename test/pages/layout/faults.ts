/**
 * Runs in the page, all of it: what is wrong with its layout, a sentence for each fault.
 * @param within a selector of the part that is looked at
 */
export function faultsIn(within: string): string[] {
  const faults: string[] = [];
  const part = document.querySelector(within);
  if (!part) return [`there is no ${within}`];
  const page = document.documentElement;

  const nameOf = (element: Element) => {
    const words = (element.textContent ?? '').trim().replace(/\s+/g, ' ').slice(0, 40);
    const id = element.id ? `#${element.id}` : '';
    return `<${element.tagName.toLowerCase()}${id} class="${element.getAttribute('class') ?? ''}"> “${words}”`;
  };
  // Asked for thousands of pieces of text with the same few elements above them.
  const clipsAway = remembered((element: Element): boolean => {
    if (element.matches('.skip:not(:focus)') || getComputedStyle(element).clipPath === 'inset(50%)') return true;
    return element.parentElement !== null && clipsAway(element.parentElement);
  });
  const isHiddenFromSight = remembered(
    (element: Element) =>
      !element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) || clipsAway(element),
  );
  /** The nearest boxes above that scroll sideways by themselves, and that cut off. */
  const scrollerAbove = remembered((element: Element): Element | null =>
    boxAbove(element, ['auto', 'scroll'], scrollerAbove),
  );
  const cutterAbove = remembered((element: Element): Element | null =>
    boxAbove(element, ['hidden', 'clip'], cutterAbove),
  );

  sideways();
  const lines = textLines();
  if (lines.length === 0) faults.push('no words in sight');
  clipped();
  overlapping();
  targets();
  mainLinks();
  order();
  return faults;

  function remembered<T>(find: (element: Element) => T): (element: Element) => T {
    const known = new Map<Element, T>();
    return (element) => {
      if (!known.has(element)) known.set(element, find(element));
      return known.get(element)!;
    };
  }

  function boxAbove(
    element: Element,
    overflows: string[],
    above: (element: Element) => Element | null,
  ): Element | null {
    const up = element.parentElement;
    if (!up || up === document.body) return null;
    return overflows.includes(getComputedStyle(up).overflowX) ? up : above(up);
  }

  /** Whether the middle of a box is where its scroller, if it has one, shows it. */
  function isScrolledInto(element: Element, box: DOMRect): boolean {
    const scroller = scrollerAbove(element);
    if (!scroller) return true;
    const frame = scroller.getBoundingClientRect();
    const [x, y] = [box.left + box.width / 2, box.top + box.height / 2];
    return x > frame.left && x < frame.right && y > frame.top && y < frame.bottom && isScrolledInto(scroller, box);
  }

  function sideways() {
    const by = page.scrollWidth - window.innerWidth;
    if (by <= 0) return;
    const widest = [...document.body.querySelectorAll('*')]
      .filter((element) => !isHiddenFromSight(element) && !scrollerAbove(element) && !cutterAbove(element))
      .sort((a, b) => b.getBoundingClientRect().right - a.getBoundingClientRect().right)[0];
    faults.push(`the page scrolls sideways by ${by} px: ${widest ? nameOf(widest) : ''}`);
  }

  /** A box for every line of every piece of text in sight. */
  function textLines() {
    const found: { node: Node; element: Element; box: DOMRect }[] = [];
    const walker = document.createTreeWalker(part!, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const element = node.parentElement!;
      if (!node.textContent!.trim() || ['SCRIPT', 'STYLE', 'OPTION'].includes(element.tagName)) continue;
      if (isHiddenFromSight(element)) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) {
        if (box.width > 1 && isScrolledInto(element, box)) found.push({ node, element, box });
      }
    }
    return found;
  }

  function clipped() {
    for (const { element, box } of lines) {
      const scroller = scrollerAbove(element);
      if (!scroller && (box.left < -1 || box.right > window.innerWidth + 1)) {
        faults.push(`reaches over the window's edge: ${nameOf(element)}`);
      }
      if (element.closest('svg')) continue;
      const cut = cutterAbove(element)?.getBoundingClientRect();
      if (cut && (box.right > cut.right + 1 || box.left < cut.left - 1 || box.bottom > cut.bottom + box.height / 3)) {
        faults.push(`is cut off: ${nameOf(element)}`);
      }
    }
    for (const drawing of part!.querySelectorAll('svg')) {
      if (isHiddenFromSight(drawing) || getComputedStyle(drawing).overflow === 'visible') continue;
      const frame = drawing.getBoundingClientRect();
      for (const text of drawing.querySelectorAll('text')) {
        const { left, right } = text.getBoundingClientRect();
        if (left < frame.left - 2 || right > frame.right + 2) faults.push(`is cut off by its drawing: ${nameOf(text)}`);
      }
    }
    // What a select shows is drawn by the browser: its text isn't a box of the page.
    const pen = document.createElement('canvas').getContext('2d')!;
    for (const select of part!.querySelectorAll('select')) {
      if (isHiddenFromSight(select) || !select.selectedOptions[0]) continue;
      const style = getComputedStyle(select);
      // A visitor's own name may be longer than a phone is wide.
      if (select.getBoundingClientRect().width > 0.95 * select.parentElement!.getBoundingClientRect().width) continue;
      pen.font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      const ARROW = 20;
      const room = select.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight) - ARROW;
      const wanted = pen.measureText(select.selectedOptions[0].text).width;
      if (wanted > room + 1)
        faults.push(
          `shows ${room.toFixed()} of ${wanted.toFixed()} px: #${select.id} “${select.selectedOptions[0].text}”`,
        );
    }
  }

  /** Lines of different pieces of text that lie on each other, and things to press that do. */
  function overlapping() {
    // The box of a line is as high as its face's ascent and descent; ink is in its middle.
    const ink = lines.map(({ node, element, box }) => ({
      node,
      element,
      left: box.left + 1,
      right: box.right - 1,
      top: box.top + box.height * 0.3,
      bottom: box.bottom - box.height * 0.25,
    }));
    ink.sort((a, b) => a.top - b.top);
    ink.forEach((one, i) => {
      for (let j = i + 1; j < ink.length && ink[j]!.top < one.bottom - 1; j += 1) {
        const other = ink[j]!;
        if (other.node === one.node || other.right <= one.left + 1 || other.left >= one.right - 1) continue;
        faults.push(`overlap: ${nameOf(one.element)} and ${nameOf(other.element)}`);
      }
    });
    const boxes = pressable().map((element) => ({ element, box: element.getBoundingClientRect() }));
    boxes.forEach(({ element, box }, i) => {
      for (const { element: other, box: second } of boxes.slice(i + 1)) {
        if (element.contains(other) || other.contains(element)) continue;
        const width = Math.min(box.right, second.right) - Math.max(box.left, second.left);
        const height = Math.min(box.bottom, second.bottom) - Math.max(box.top, second.top);
        if (width > 2 && height > 2) faults.push(`lie on each other: ${nameOf(element)} and ${nameOf(other)}`);
      }
    });
  }

  /** Without links in running text, whose lines may touch (WCAG 2.2, 2.5.8: inline). */
  function pressable() {
    const all = part!.querySelectorAll('a[href], button, input, select, textarea, summary, [role="slider"]');
    return [...all].filter((element) => {
      if (isHiddenFromSight(element) || !isScrolledInto(element, element.getBoundingClientRect())) return false;
      return element.tagName !== 'A' || getComputedStyle(element).display !== 'inline';
    });
  }

  /** WCAG 2.2, 2.5.8: 24 px; 44 px (2.5.5) for what a page is there for. */
  function targets() {
    for (const element of pressable()) {
      const boxes = [element, ...((element as HTMLInputElement).labels ?? [])].map((one) =>
        one.getBoundingClientRect(),
      );
      const width = Math.max(...boxes.map((box) => box.width));
      const height = Math.max(...boxes.map((box) => box.height));
      const isMain = element.matches('.button, button:not(.plain)');
      const least = isMain ? 44 : 24;
      if (height < least - 0.5 || width < least - 0.5) {
        faults.push(`is ${width.toFixed()} x ${height.toFixed()} px, less than ${least}: ${nameOf(element)}`);
      }
    }
  }

  function mainLinks() {
    const tops = [...document.querySelectorAll('nav[aria-label="Main"] li')].map(
      (li) => li.getBoundingClientRect().top,
    );
    if (tops.length !== 7) faults.push(`${tops.length} main links instead of 7`);
    if (new Set(tops.map(Math.round)).size > 1) faults.push('the main links stand on more than one line');
  }

  /** What comes later is read later: headings follow each other downwards. */
  function order() {
    let [last, column] = [-Infinity, -Infinity];
    for (const heading of part!.querySelectorAll('main h1, main h2, main h3')) {
      if (isHiddenFromSight(heading)) continue;
      const { top, left, width } = heading.getBoundingClientRect();
      if (width === 0) faults.push(`has no width: ${nameOf(heading)}`);
      // A column further to the right is read after this one.
      const isNextColumn = left > column + width / 2;
      if (top < last - 1 && !isNextColumn) faults.push(`stands above what comes before it: ${nameOf(heading)}`);
      last = isNextColumn ? top : Math.max(last, top);
      column = left;
    }
  }
}
