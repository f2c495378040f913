/** A Vite plugin: `@typeface/regular.woff2` is the site's own cut of that face, in CSS and in scripts. */
import { typefaceFolder } from './typeface.ts';

/** @returns {import('vite').Plugin} */
export function typefacePlugin() {
  return {
    name: 'typeface',
    config: async () => ({ resolve: { alias: { '@typeface': await typefaceFolder() } } }),
  };
}
