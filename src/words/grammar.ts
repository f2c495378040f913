/** How the language of the words counts, lists and begins a sentence. */

/** The words are written in this language, and so are the numbers and dates between them. */
export const LANGUAGE = 'en-GB';

const PLURALS = new Intl.PluralRules(LANGUAGE);
const LISTS = {
  and: new Intl.ListFormat(LANGUAGE, { type: 'conjunction' }),
  or: new Intl.ListFormat(LANGUAGE, { type: 'disjunction' }),
};

/** The form that agrees with a count: `plural(2, 'It is', 'They are')`. */
export function plural(count: number, one: string, other: string): string {
  return PLURALS.select(count) === 'one' ? one : other;
}

/** "1 block", "12 blocks" */
export function countText(count: number, one: string, other: string): string {
  return `${new Intl.NumberFormat(LANGUAGE).format(count)} ${plural(count, one, other)}`;
}

/** "a", "a and b", "a, b and c" */
export function listText(items: readonly string[], word: 'and' | 'or' = 'and'): string {
  return LISTS[word].format(items);
}

/** With a capital at its beginning, as a sentence has one; "pH" stays as it is. */
export function capitalised(text: string): string {
  return /^pH\b/.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1);
}
