// `npm run engine`: which functions OpenCV calls through its table, for what is asked of it here.
import { writeFileSync } from 'node:fs';
import { type Entered, ENTERED_FILE, hashOf, wholeEngine } from '../../src/build/shrunk-engine.ts';
import { shrink } from '../../src/build/shrink.ts';
import { exercise, SIZES } from './exercise.ts';
import { startFrom } from './start-from.ts';

/** Only calls by name can be told from the code. The others show themselves: where one is missing the engine traps. */
const whole = wholeEngine();
const entered = new Set<number>();
for (const size of SIZES) while (!passes([size]));
while (!passes(SIZES));
const functions = [...entered].sort((a, b) => a - b);
writeFileSync(ENTERED_FILE, `${JSON.stringify({ of: hashOf(whole), functions } satisfies Entered)}\n`);
const kept = shrink(whole, functions).length / whole.length;
console.log(`${functions.length} functions; ${(100 * kept).toFixed(1)} % of the bytes are left.`);

function passes(sizes: typeof SIZES): boolean {
  try {
    exercise(startFrom(shrink(whole, entered)), sizes);
    return true;
  } catch (error) {
    if (!(error instanceof WebAssembly.RuntimeError)) throw error;
    // The topmost frame is the function that was taken out.
    const index = Number(/wasm-function\[(\d+)\]/.exec(error.stack ?? '')?.[1]);
    if (!(index >= 0) || entered.has(index)) throw error;
    entered.add(index);
    console.log(`${entered.size}: function ${index}, at ${JSON.stringify(sizes.at(0))}`);
    return false;
  }
}
