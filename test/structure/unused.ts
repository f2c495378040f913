/** Exports that nothing in the product or in a tool uses: only tests keep such code alive. */
import { globSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';
import ts from 'typescript';

/** What a visitor or a developer runs; files named `*.test.ts` and their helpers are left out. */
const USERS = [
  'src/**/*.{ts,mjs,astro,mdx}',
  'test/{bench,studio,pictures,plans,structure}/**/*.ts',
  'astro.config.mjs',
];

/** Astro calls these by name. */
const CALLED_BY_ASTRO = /^src\/(pages\/|content\.config\.ts$)/;

interface Declared {
  readonly file: string;
  readonly name: string;
}

/** The code of a file; of markup, its imports. */
function codeOf(file: string): string {
  const text = readFileSync(file, 'utf8');
  if (!/\.(astro|mdx)$/.test(file)) return text;
  const imports = /^\s*import\s[^;]*?['"][^'"]+['"]|\bimport\('[^']+'\)/gm;
  return [...text.matchAll(imports)].map(([line]) => line).join(';\n');
}

function exportedNames(statement: ts.Statement): string[] {
  const modifiers = ts.canHaveModifiers(statement) ? (ts.getModifiers(statement) ?? []) : [];
  const has = (kind: ts.SyntaxKind) => modifiers.some((modifier) => modifier.kind === kind);
  if (!has(ts.SyntaxKind.ExportKeyword) || has(ts.SyntaxKind.DefaultKeyword)) return [];
  if (ts.isVariableStatement(statement)) {
    return statement.declarationList.declarations.map(({ name }) => name.getText());
  }
  const { name } = statement as ts.DeclarationStatement;
  return name ? [name.text] : [];
}

/** Every name that stands in a file, and how often: of markup every word. */
function namesIn(file: string, code: ts.SourceFile): Map<string, number> {
  const found = new Map<string, number>();
  const count = (name: string) => found.set(name, (found.get(name) ?? 0) + 1);
  const visit = (node: ts.Node): void => {
    if (ts.isIdentifier(node)) count(node.text);
    ts.forEachChild(node, visit);
  };
  if (/\.(astro|mdx)$/.test(file)) readFileSync(file, 'utf8').match(/\w+/g)?.forEach(count);
  else visit(code);
  return found;
}

/** Exported, named once in its own file, and in no file that imports it. */
export function unusedExports(): Declared[] {
  const files = globSync(USERS).map((file) => file.replaceAll('\\', '/'));
  const parsed = new Map(
    files
      .filter((file) => !/\.(test|spec)\.ts$/.test(file))
      .map((file) => [file, ts.createSourceFile(file, codeOf(file), ts.ScriptTarget.Latest, true)]),
  );
  const names = new Map([...parsed].map(([file, code]) => [file, namesIn(file, code)]));
  const users = new Map<string, string[]>();
  for (const [file, code] of parsed) {
    for (const { fileName } of ts.preProcessFile(code.text, true, true).importedFiles) {
      const path = posix.join(posix.dirname(file), fileName.replace(/\?.*/, ''));
      users.set(path, [...(users.get(path) ?? []), file]);
    }
  }
  /** Who hands everything on (`export * from`) is no user: those who take it from there are. */
  const usersOf = (file: string): string[] =>
    users.get(file)?.flatMap((user) => (/^export \* from/m.test(codeOf(user)) ? usersOf(user) : [user])) ?? [];
  return [...parsed].flatMap(([file, code]) => {
    if (!file.startsWith('src/') || CALLED_BY_ASTRO.test(file)) return [];
    const isUsed = (name: string) =>
      names.get(file)!.get(name)! > 1 || usersOf(file).some((user) => names.get(user)!.has(name));
    return code.statements.flatMap(exportedNames).flatMap((name) => (isUsed(name) ? [] : [{ file, name }]));
  });
}
