import mdx from '@astrojs/mdx';
import { defineConfig } from 'astro/config';
import { offline } from './src/print/offline/integration.mjs';
import { licences, seeLicences } from './src/build/licences.mjs';
import { typefacePlugin } from './src/build/typeface-plugin.mjs';

export default defineConfig({
  // The path of the host that the site is built for; `--base` does the same.
  base: process.env.BASE_PATH ?? '/',
  output: 'static',
  trailingSlash: 'ignore',
  // What is kept without a network is listed last.
  integrations: [mdx(), licences(), offline()],
  devToolbar: { enabled: false },
  // Styles that reach a page by way of its Markdown would be inlined without a hash in the policy below.
  build: { inlineStylesheets: 'never' },
  // Highlighted code would need inline styles, which the policy below forbids.
  markdown: { syntaxHighlight: false },
  vite: {
    plugins: [typefacePlugin(), seeLicences()],
    worker: { format: 'es', plugins: () => [seeLicences()] },
  },
  security: {
    csp: {
      directives: [
        "default-src 'none'",
        "connect-src 'self'",
        "font-src 'self'",
        "form-action 'self'",
        "img-src 'self' blob: data:",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "object-src 'none'",
      ],
    },
  },
});
