/** A Vite plugin: `virtual:opencv` is opencv-wasm's own file as a plain factory. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { factorySource } from './factory-source.mjs';

const ID = 'virtual:opencv';

/** @returns {import('vite').Plugin} */
export function opencvPlugin() {
  return {
    name: 'opencv-factory',
    resolveId: (id) => (id === ID ? `\0${ID}` : null),
    async load(id) {
      if (id !== `\0${ID}`) return null;
      const umd = await readFile(createRequire(import.meta.url).resolve('opencv-wasm/opencv.js'), 'utf8');
      return { code: `export default ${factorySource(umd)};`, map: { mappings: '' } };
    },
  };
}
