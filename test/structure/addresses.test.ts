import { globSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** An address that begins at the host's root, in markup, style or script: it breaks where the site has a path. */
const ROOTED = [
  /\b(?:href|src|srcset|action|poster|url|location)\s*[:=]\s*\{?["'`]\/(?!\/)[^"'`]*/g,
  /\burl\(\s*["']?\/(?!\/)[^)]*/g,
  /\b(?:fetch|assign|replace|open|register|Worker|Request|URL)\(\s*["'`]\/(?!\/)[^"'`]*/g,
];

function rootedIn(text: string): string[] {
  return ROOTED.flatMap((pattern) => text.match(pattern) ?? []);
}

describe('addresses', () => {
  const files = globSync(['src/**/*.{astro,ts,mjs,js,css,mdx}', 'public/*.{js,svg}']);

  it('never begin at the root of the host: `href()` makes them', () => {
    expect(files.length).toBeGreaterThan(300);
    expect(files.flatMap((file) => rootedIn(readFileSync(file, 'utf8')).map((found) => `${file}: ${found}`))).toEqual(
      [],
    );
  });

  it('are seen where they do', () => {
    const wrong = [
      '<a href="/read/">',
      '<img src={`/icon.svg`} />',
      'background: url(/paper.png)',
      "fetch('/search.json')",
      "location.assign('/plan/')",
      "new URL('/offline.json', location.href)",
      "{ url: '/read/' }",
    ];
    for (const text of wrong) expect(rootedIn(text), text).toHaveLength(1);
    expect(rootedIn('<a href="//example.org">, href(`read/`), a.replace(/x/, y)')).toEqual([]);
  });
});
