import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { factorySource } from '../../src/build/factory-source.mjs';
import { wholeEngine } from '../../src/build/shrunk-engine.ts';
import { type Cv, type CvFactory, startEngine } from '../../src/vision/engine/opencv.ts';

const umd = readFileSync(createRequire(import.meta.url).resolve('opencv-wasm/opencv.js'), 'utf8');

type Wasm = Uint8Array<ArrayBuffer>;

/** OpenCV from any edition of its code. */
export function startFrom(wasm: Wasm): Cv {
  return startEngine(newFactory(), (imports) => instantiate(wasm, imports));
}

/** All that opencv-wasm can do, as a reference to compare with. */
export function startWhole(): Cv {
  const cv: Cv & { then?: unknown } = newFactory()({
    instantiateWasm(imports, receive) {
      const instance = instantiate(Uint8Array.from(wholeEngine()), imports);
      receive(instance);
      return instance.exports;
    },
  });
  delete cv.then;
  return cv;
}

function newFactory(): CvFactory {
  return new Function(`return ${factorySource(umd)}`)() as CvFactory;
}

function instantiate(wasm: Wasm, imports: object): WebAssembly.Instance {
  return new WebAssembly.Instance(new WebAssembly.Module(wasm), imports as WebAssembly.Imports);
}
