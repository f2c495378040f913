/** Text that is put into markup is text: file names may hold anything. */

export interface Html {
  readonly text: string;
}

type Part = string | number | Html | readonly Html[];

/** A template whose parts are escaped, but for those that are markup themselves. */
export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Html {
  return { text: strings.map((text, i) => text + (i < parts.length ? markup(parts[i]!) : '')).join('') };
}

/** Markup that was written here. */
export function raw(text: string): Html {
  return { text };
}

function markup(part: Part): string {
  if (typeof part === 'string' || typeof part === 'number') return escaped(String(part));
  return 'text' in part ? part.text : part.map(({ text }) => text).join('');
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

function escaped(text: string): string {
  return text.replace(/[&<>"']/g, (character) => ENTITIES[character]!);
}
