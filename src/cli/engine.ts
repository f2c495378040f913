/** Starts the vision engine in Node. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { factorySource } from '../build/factory-source.mjs';
import { shrunkEngineFile } from '../build/shrunk-engine.ts';
import { type Cv, type CvFactory, startEngine } from '../vision/engine/opencv.ts';

// Node has it; the types of its world don't.
declare const WebAssembly: {
  compile(bytes: Uint8Array): Promise<object>;
  Instance: new (module: object, imports: object) => { readonly exports: object };
};

const require = createRequire(import.meta.url);

/** Takes about a tenth of a second. */
export async function startNodeEngine(): Promise<Cv> {
  const [umd, wasm] = await Promise.all([
    readFile(require.resolve('opencv-wasm/opencv.js'), 'utf8'),
    readFile(shrunkEngineFile()),
  ]);
  const factory = new Function(`return ${factorySource(umd)}`)() as CvFactory;
  const module = await WebAssembly.compile(wasm);
  return startEngine(factory, (imports) => new WebAssembly.Instance(module, imports));
}
