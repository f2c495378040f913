/** Small pieces that the parts of the plan share. */
import type { TargetId } from '../../core/water/targets.ts';
import { h } from '../dom.ts';
import { href } from '../href.ts';

type Content = Node | string;

export function section(title: string, ...content: (Content | null)[]): HTMLElement {
  return h('section', {}, h('h2', {}, title), ...content);
}

export function list(lines: readonly Content[], name = ''): HTMLElement | null {
  if (lines.length === 0) return null;
  return h('ul', { class: name || null }, ...lines.map((line) => h('li', {}, line)));
}

/** A part that opens on demand. */
export function fold(summary: string, ...content: (Content | null)[]): HTMLElement {
  return h('details', {}, h('summary', {}, summary), ...content);
}

const PAGES: Record<TargetId, string> = {
  'free-chlorine': 'free-chlorine',
  'combined-chlorine': 'total-chlorine',
  ph: 'ph',
  'total-alkalinity': 'total-alkalinity',
  'calcium-hardness': 'total-hardness',
  'cyanuric-acid': 'cyanuric-acid',
  salt: 'salt',
  'saturation-index': 'saturation-index',
};

/** A reading's name, leading to its explainer. */
export function explained(target: TargetId, name: string): HTMLElement {
  return h('a', { href: href(`learn/${PAGES[target]}/`) }, name);
}
