/** From what was named on the command line to the photos, in order. */
import { stat } from 'node:fs/promises';
import { isAbsolute, join } from 'node:path';
import { glob, isDynamicPattern } from 'tinyglobby';

/** What is taken from a folder; a file that is named by itself is looked at whatever its name. */
const PHOTO_NAME = /\.(jpe?g|png|webp|avif|hei[cf]|tiff?|gif)$/i;
/** As people number files: 2 before 10. */
const NAMES = new Intl.Collator('en', { numeric: true });

/** What names no photo stays in its place, so that it gets an answer too. */
export async function photosNamed(named: readonly string[]): Promise<string[]> {
  const photos: string[] = [];
  for (const name of named) photos.push(...(await photosOf(name)));
  return photos;
}

async function photosOf(name: string): Promise<string[]> {
  const about = await stat(name).catch(() => null);
  if (about && !about.isDirectory()) return [name];
  if (about) {
    const inside = await filesOf('**', name);
    const photos = inside.filter((file) => PHOTO_NAME.test(file)).map((file) => join(name, file));
    return photos.length > 0 ? photos : [name];
  }
  const pattern = process.platform === 'win32' ? name.replaceAll('\\', '/') : name;
  const matches = isDynamicPattern(pattern) ? await filesOf(pattern) : [];
  return matches.length > 0 ? matches : [name];
}

async function filesOf(pattern: string, folder?: string): Promise<string[]> {
  // A folder that can't be opened is passed over.
  const files = await glob(pattern, {
    ...(folder !== undefined && { cwd: folder }),
    absolute: isAbsolute(pattern),
    expandDirectories: false,
  });
  return files.sort(NAMES.compare);
}
