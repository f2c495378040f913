/** Files and folders that somebody named on the command line: nothing about them is taken for granted. */
import { type FileHandle, mkdir, open, stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';

/** Scales and block files are a few kilobytes. */
const MAX_TEXT_BYTES = 20_000_000;

/**
 * The text of a small file, without the byte-order mark that some editors put in front.
 * @throws Error with a sentence when it can't be opened or is too large
 */
export async function readText(path: string, maxBytes = MAX_TEXT_BYTES): Promise<string> {
  const bytes = await readAtMost(path, maxBytes).catch(() => {
    throw new Error(`${path} can't be opened`);
  });
  if (!bytes) throw new Error(`${path} is larger than ${maxBytes / 1e6} MB`);
  return withoutMark(bytes.toString('utf8'));
}

export function withoutMark(text: string): string {
  return text.replace(/^\uFEFF/, '');
}

/** @returns null where there are more bytes than that; what tells no size, such as a pipe, is read no further */
async function readAtMost(path: string, limit: number): Promise<Buffer | null> {
  const handle = await open(path);
  try {
    return await allOf(handle, limit);
  } finally {
    await handle.close();
  }
}

/** @returns null where there are more bytes than `limit` */
export async function allOf(handle: FileHandle, limit: number): Promise<Buffer | null> {
  const about = await handle.stat();
  if (about.isFile() && about.size > limit) return null;
  const parts: Buffer[] = [];
  let bytes = 0;
  for await (const part of handle.createReadStream({ autoClose: false, highWaterMark: 1 << 20 })) {
    parts.push(part as Buffer);
    bytes += (part as Buffer).length;
    if (bytes > limit) return null;
  }
  return Buffer.concat(parts);
}

/**
 * Makes a folder and those above it, one by one: Node's recursive `mkdir` hangs on some paths that can't be
 * made, such as one in /proc.
 * @throws Error with the system's message
 */
export async function makeFolder(path: string): Promise<void> {
  const missing: string[] = [];
  let above = resolve(path);
  for (let found = await kindOf(above); found !== 'folder'; found = await kindOf(above)) {
    if (found === 'other') throw new Error(`${above} is not a folder`);
    missing.unshift(above);
    above = dirname(above);
  }
  for (const folder of missing) await mkdir(folder);
}

/** @throws Error with a sentence where a file can't be written there, before any work is done for it */
export async function checkWritable(path: string): Promise<void> {
  if ((await kindOf(resolve(path))) === 'folder') throw new Error(`${path} is a folder: name a file`);
  const folder = dirname(resolve(path));
  if ((await kindOf(folder)) !== 'folder')
    throw new Error(`${folder} is not a folder that ${path} could be written to`);
}

async function kindOf(path: string): Promise<'folder' | 'other' | 'missing'> {
  try {
    return (await stat(path)).isDirectory() ? 'folder' : 'other';
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return 'missing';
    throw error;
  }
}
