/** Literals in code that read as a sentence, by TypeScript's own parser. */
import ts from 'typescript';

/** Words that hold a sentence together; data and names have none, or one. */
const BINDING = new Set(
  `a an and are at be been but by can can't cannot could do does for from has have how if in is isn't it its least
   less may more most must no not of on or so than that the them then there they this to too was were what where which
   whose will with without would you your`.split(/\s+/),
);

/** Four words and more, two of them binding, or two words that end like a sentence; not a title, where others are capital. */
export function readsAsSentence(text: string): boolean {
  const words = text.match(/[A-Za-z][A-Za-z’']*/g) ?? [];
  if (!/[a-z] [a-z’']/i.test(text)) return false;
  const isBinding = (word: string) => BINDING.has(word.toLowerCase().replace('’', "'"));
  if (words.every((word) => isBinding(word) || /^[A-Z]/.test(word))) return false;
  const binding = words.filter(isBinding).length;
  return (words.length >= 4 && binding >= 2) || (words.length >= 3 && /^[A-Z][^/]*[.?!]$/.test(text.trim()));
}

/** What is thrown tells a programmer of a mistake, and is shown to nobody; a heading of a file's column stays as it is. */
function isAside(node: ts.Node): boolean {
  for (let at = node.parent; at !== undefined; at = at.parent) {
    if (ts.isNewExpression(at) && /Error$/.test(at.expression.getText())) return true;
    if (ts.isCallExpression(at) && /^(read|readElsewhere|fromMemory)$/.test(at.expression.getText())) return true;
    if (ts.isPropertyAssignment(at) && /^'?(source|unit)'?$/.test(at.name.getText())) return true;
    if (ts.isVariableDeclaration(at) && /_UNIT$/.test(at.name.getText())) return true;
    if (ts.isStatement(at) && !ts.isVariableStatement(at)) return false;
  }
  return false;
}

/** A title with its year is a source that is cited. */
const CITED = /\b(1[89]|20)\d\d\b|\b\d{3}\.\d/;

export function sentencesIn(code: string): string[] {
  const file = ts.createSourceFile('code.ts', code, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    const text = ts.isTemplateExpression(node)
      ? [node.head.text, ...node.templateSpans.map((span) => span.literal.text)].join(' x ')
      : ts.isStringLiteralLike(node)
        ? node.text
        : null;
    if (text !== null && readsAsSentence(text) && !CITED.test(text) && !isAside(node)) found.push(text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}
