/** The letters that stand for a page's sources: a, b, ... z, aa, ab. */
export function withLetters(ids: readonly string[]): { id: string; letter: string }[] {
  return ids.map((id, i) => ({ id, letter: letter(i) }));
}

function letter(i: number): string {
  const last = String.fromCharCode(97 + (i % 26));
  return i < 26 ? last : letter(Math.floor(i / 26) - 1) + last;
}
