/** A drawing as data, so that the same drawing can be made in the page and at build time. */
export interface SvgNode {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children: readonly (SvgNode | string)[];
}

export function svg(
  tag: string,
  attributes: Readonly<Record<string, string | number>> = {},
  ...children: (SvgNode | string)[]
): SvgNode {
  return { tag, attributes, children };
}

export function toElement(node: SvgNode): SVGElement {
  const element = document.createElementNS('http://www.w3.org/2000/svg', node.tag);
  for (const [name, value] of Object.entries(node.attributes)) element.setAttribute(name, String(value));
  element.append(...node.children.map((child) => (typeof child === 'string' ? child : toElement(child))));
  return element;
}

export function toMarkup(node: SvgNode): string {
  const attributes = Object.entries(node.attributes).map(([name, value]) => ` ${name}="${escape(String(value))}"`);
  const children = node.children.map((child) => (typeof child === 'string' ? escape(child) : toMarkup(child)));
  return `<${node.tag}${attributes.join('')}>${children.join('')}</${node.tag}>`;
}

function escape(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}
