/** The engine as it is sent, against the whole of opencv-wasm. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Entered, ENTERED_FILE, hashOf, shrunkEngineFile, wholeEngine } from '../../../src/build/shrunk-engine.ts';
import { shrink } from '../../../src/build/shrink.ts';
import { complaint, exercise } from '../../engine/exercise.ts';
import { startFrom } from '../../engine/start-from.ts';

const whole = wholeEngine();
const shrunk = Uint8Array.from(readFileSync(shrunkEngineFile()));
const { of, functions } = JSON.parse(readFileSync(ENTERED_FILE, 'utf8')) as Entered;

/** Others than those it was shrunk with. */
const SIZES = [
  [51, 170],
  [301, 207],
  [1023, 767],
] as const;

describe('the shrunk engine', () => {
  it('was shrunk by what this edition of opencv-wasm calls', () => {
    expect(hashOf(whole), 'run "npm run engine"').toBe(of);
  });

  it('gives what the whole one gives, bit for bit', () => {
    expect(exercise(startFrom(shrunk), SIZES)).toBe(exercise(startFrom(Uint8Array.from(whole)), SIZES));
  });

  it('says what OpenCV says', () => {
    expect(complaint(startFrom(shrunk))).toMatch(/blockSize % 2 == 1.*adaptiveThreshold/);
  });

  it('is a fifth of the bytes', () => {
    expect(shrunk.length / whole.length).toBeLessThan(0.2);
  });

  it('traps at once where a function is missing, instead of computing something else', { tags: 'release' }, () => {
    for (const missing of [functions[0]!, functions.at(-1)!]) {
      const less = shrink(
        whole,
        functions.filter((index) => index !== missing),
      );
      expect(() => exercise(startFrom(less), SIZES)).toThrow(WebAssembly.RuntimeError);
    }
  });
});

describe('shrinking', () => {
  /**
   * Written out by hand after the core specification, chapter 5: 0 is exported and calls 1; 2 calls 3; nobody names 2.
   * Each returns a number: 0 that of 1, 1 gives 11, 2 that of 3, 3 gives 33. The table holds 2, and `through` calls it.
   */
  const SMALL = Uint8Array.of(
    ...[0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00],
    // Type 0: () -> i32.
    ...[0x01, 0x05, 0x01, 0x60, 0x00, 0x01, 0x7f],
    ...[0x03, 0x06, 0x05, 0x00, 0x00, 0x00, 0x00, 0x00],
    ...[0x04, 0x04, 0x01, 0x70, 0x00, 0x01],
    // Exports "a" (0) and "t" (4).
    ...[0x07, 0x09, 0x02, 0x01, 0x61, 0x00, 0x00, 0x01, 0x74, 0x00, 0x04],
    ...[0x09, 0x07, 0x01, 0x00, 0x41, 0x00, 0x0b, 0x01, 0x02],
    ...[0x0a, 0x1d, 0x05],
    ...[0x04, 0x00, 0x10, 0x01, 0x0b],
    ...[0x04, 0x00, 0x41, 0x0b, 0x0b],
    ...[0x04, 0x00, 0x10, 0x03, 0x0b],
    ...[0x04, 0x00, 0x41, 0x21, 0x0b],
    // Through the table: `call_indirect` of place 0.
    ...[0x07, 0x00, 0x41, 0x00, 0x11, 0x00, 0x00, 0x0b],
    ...[0x00, 0x04, 0x02, 0x6e, 0x6f, 0x21],
  );

  const run = (wasm: Uint8Array<ArrayBuffer>) =>
    new WebAssembly.Instance(new WebAssembly.Module(wasm)).exports as { a(): number; t(): number };

  it('keeps what exports call by name, and takes out the rest', () => {
    expect(run(SMALL).t()).toBe(33);
    const { a, t } = run(shrink(SMALL, []));
    expect(a()).toBe(11);
    expect(t).toThrow(WebAssembly.RuntimeError);
  });

  it('keeps what is called through the table, with all that it calls, once it is listed', () => {
    expect(run(shrink(SMALL, [2])).t()).toBe(33);
  });

  it('says so when the file isn’t WebAssembly', () => {
    expect(() => shrink(Uint8Array.of(1, 2, 3, 4, 5, 6, 7, 8), [])).toThrow();
  });
});
