/** What each source file imports: read by TypeScript's own scanner, for the test of directions and for the drawing. */
import { globSync, readFileSync } from 'node:fs';
import { dirname, posix } from 'node:path';
import ts from 'typescript';

/** Every source file that lies in a room, by its path from the project's folder. */
export const SOURCE_FILES: readonly string[] = globSync('src/*/**/*.{ts,mjs,astro,mdx}')
  .map((file) => file.replaceAll('\\', '/'))
  .sort();

/** The room a file lies in: the folder below `src`. */
export function roomOf(file: string): string {
  return file.split('/')[1]!;
}

/** What a file imports, as it writes it. */
export function importsOf(file: string): string[] {
  const text = readFileSync(file, 'utf8');
  const code = /\.(astro|mdx)$/.test(file)
    ? [...text.matchAll(/^\s*(?:import|export)\s[^;]*?['"][^'"]+['"]/gm)].map(([line]) => line).join(';\n')
    : text;
  return ts.preProcessFile(code, true, true).importedFiles.map((found) => found.fileName);
}

/** Path from the project's folder to what a file imports from beside it; null for a package. */
export function importedPath(file: string, specifier: string): string | null {
  return specifier.startsWith('.') ? posix.join(dirname(file), specifier) : null;
}
