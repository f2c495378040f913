/**
 * A Vite plugin: `virtual:opencv` is opencv-wasm's own file as a plain factory, `virtual:opencv.wasm` the address of
 * the shrunk engine.
 */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { factorySource } from './factory-source.mjs';
import { shrunkEngineFile } from './shrunk-engine.ts';

const ID = 'virtual:opencv';

/** @returns {import('vite').Plugin} */
export function opencvPlugin() {
  return {
    name: 'opencv-factory',
    resolveId(id) {
      if (id === ID) return `\0${ID}`;
      return id === `${ID}.wasm` ? `${shrunkEngineFile()}?url` : null;
    },
    async load(id) {
      if (id !== `\0${ID}`) return null;
      const umd = await readFile(createRequire(import.meta.url).resolve('opencv-wasm/opencv.js'), 'utf8');
      return { code: `export default ${factorySource(umd)};`, map: { mappings: '' } };
    },
  };
}
