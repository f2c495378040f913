/** Ways round between the folders of a room. */
import { dirname } from 'node:path/posix';
import { importedPath, importsOf, roomOf, SOURCE_FILES } from './imports.ts';

/** What a file counts as: its folder; beside the folders of its room, itself. */
function nodeOf(file: string): string {
  const folder = dirname(file);
  return folder.split('/').length === 2 ? file : folder;
}

/** A folder and the folders in it are one thing to others. */
function isWithin(inner: string, outer: string): boolean {
  return inner === outer || inner.startsWith(`${outer}/`);
}

/** From each folder to those of the same room that its files import, with one file that does. */
export function folderImports(files: readonly string[] = SOURCE_FILES): Map<string, Map<string, string>> {
  const found = new Map<string, Map<string, string>>();
  for (const file of files) {
    const from = nodeOf(file);
    for (const specifier of importsOf(file)) {
      const path = importedPath(file, specifier);
      if (path === null || !path.startsWith(`src/${roomOf(file)}/`) || /\.css/.test(path)) continue;
      const to = nodeOf(path);
      if (isWithin(from, to) || isWithin(to, from)) continue;
      const known = found.get(from) ?? new Map<string, string>();
      if (!known.has(to)) found.set(from, known.set(to, `${file} -> ${path}`));
    }
  }
  return found;
}

/** The imports by which a folder comes back to itself; empty where there is no way round. */
export function waysRound(imports: ReadonlyMap<string, ReadonlyMap<string, string>>): string[] {
  const reached = (from: string): Set<string> => {
    const seen = new Set<string>();
    const left = [from];
    for (let at = left.pop(); at !== undefined; at = left.pop()) {
      for (const next of imports.get(at)?.keys() ?? []) {
        if (!seen.has(next)) left.push(next);
        seen.add(next);
      }
    }
    return seen;
  };
  return [...imports].flatMap(([from, targets]) =>
    [...targets].flatMap(([to, example]) => (reached(to).has(from) ? [example] : [])),
  );
}
