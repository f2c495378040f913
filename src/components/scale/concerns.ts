/** What a scale can't tell apart, as a list of sentences. */
import { h } from '../dom.ts';

export function concernList(sentences: readonly string[]): HTMLElement {
  if (sentences.length === 0) return h('p', {}, 'Every step of every pad can be told apart.');
  return h(
    'div',
    { class: 'concern-list' },
    h('p', {}, sentences.length === 1 ? 'One thing to know about this scale:' : 'What to know about this scale:'),
    h('ul', {}, ...sentences.map((sentence) => h('li', {}, sentence))),
  );
}
