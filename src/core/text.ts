/** Text that a person typed or a file brought. */

/* Control characters other than line feed, and halves of surrogate pairs, which no file can carry. */
const UNCLEAN = /[^\P{Cc}\n]|[\ufffe\uffff]|\p{Surrogate}/u;

export function isCleanText(text: string): boolean {
  return !UNCLEAN.test(text);
}

/** Line ends as line feeds, tabs as spaces, other control characters left out, cut to a length between characters. */
export function cleanText(text: string, longest: number): string {
  const clean = text.replace(/\r\n?/g, '\n').replace(/\t/g, ' ').replace(new RegExp(UNCLEAN.source, 'gu'), '');
  if (clean.length <= longest) return clean;
  const cut = clean.slice(0, longest);
  return /\p{Surrogate}$/u.test(cut) ? cut.slice(0, -1) : cut;
}
