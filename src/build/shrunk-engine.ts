/** OpenCV with the functions that are used here alone: a fifth of its code, so it comes and starts sooner. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { shrink } from './shrink.ts';

export interface Entered {
  /** SHA-256 of the opencv.wasm in which they were seen. */
  readonly of: string;
  /** Indices of the functions that were seen to be called through the table: `npm run engine`. */
  readonly functions: readonly number[];
}

export const ENTERED_FILE = new URL('entered.json', import.meta.url);
const SHRINKING = new URL('shrink.ts', import.meta.url);

export function wholeEngine(): Uint8Array {
  return readFileSync(createRequire(import.meta.url).resolve('opencv-wasm/opencv.wasm'));
}

/**
 * The file of the shrunk engine, made when it isn't there yet.
 * @throws where the list of its functions is of another edition of opencv-wasm
 */
export function shrunkEngineFile(): string {
  const list = readFileSync(ENTERED_FILE);
  const { of, functions } = JSON.parse(list.toString('utf8')) as Entered;
  const whole = wholeEngine();
  if (hashOf(whole) !== of) {
    throw new Error(
      'opencv-wasm is of another edition than src/build/entered.json: run "npm run engine" to renew that.',
    );
  }
  // Another list or another way of shrinking makes another file.
  const name = hashOf(Buffer.concat([list, readFileSync(SHRINKING)])).slice(0, 12);
  const file = fileURLToPath(new URL(`../../node_modules/.cache/engine/${name}/opencv.wasm`, import.meta.url));
  if (existsSync(file)) return file;
  mkdirSync(dirname(file), { recursive: true });
  // Two processes may be at it: neither must see half a file.
  writeFileSync(`${file}.${process.pid}`, shrink(whole, functions));
  renameSync(`${file}.${process.pid}`, file);
  return file;
}

export function hashOf(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
