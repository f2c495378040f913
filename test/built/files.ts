/** The files of the build, as a static host sends them. */
import { existsSync, readFileSync } from 'node:fs';
import { extname, join, posix } from 'node:path';
import { gzipSync } from 'node:zlib';
import { PAGES } from '../pages/built.ts';

const DIST = new URL('../../dist/', import.meta.url).pathname;
if (!existsSync(join(DIST, 'index.html'))) throw new Error('there is no build to look at: run `npm run build` first');

export { PAGES };

export function textOf(path: string): string {
  return readFileSync(fileOf(path), 'utf8');
}

export function fileOf(path: string): string {
  return join(DIST, path.endsWith('/') ? `${path}index.html` : path);
}

/** Pictures and fonts are packed already; every static host packs the rest, few of them better than this. */
const IS_TEXT = new Set(['.html', '.js', '.css', '.svg', '.json', '.webmanifest']);

export function bytesSent(path: string): number {
  const file = fileOf(path);
  const body = readFileSync(file);
  return IS_TEXT.has(extname(file)) ? gzipSync(body, { level: 6 }).length : body.length;
}

/** What a page asks for while it loads, and nobody has touched it yet, without the site's typeface. */
export function requestsOf(page: string): string[] {
  const html = textOf(page);
  const asked = [...attributesOf(html, 'script', 'src'), ...attributesOf(html, 'link', 'href', ASKED_LINKS)];
  const pictures = [...html.matchAll(/<img\b[^>]*>/g)]
    .filter(([tag]) => !tag.includes('loading="lazy"'))
    .flatMap(([tag]) => /\ssrc="([^"]+)"/.exec(tag)?.slice(1) ?? []);
  const scripts = asked.filter((path) => path.endsWith('.js')).flatMap((path) => [...withImports(path)]);
  return [...new Set([page, ...asked, ...scripts, ...pictures])].filter(
    (path) => !path.startsWith('data:') && !isFont(path),
  );
}

/** The faces that a page's styles name: each comes when text is set in it, and stays for every page. */
export function fontsOf(page: string): string[] {
  const styles = attributesOf(textOf(page), 'link', 'href').filter((path) => path.endsWith('.css'));
  return [...new Set(styles.flatMap(fontsIn))].sort();
}

export function preloadedOf(page: string): string[] {
  return attributesOf(textOf(page), 'link', 'href', /rel="preload"/);
}

export function isFont(path: string): boolean {
  return path.endsWith('.woff2');
}

const ASKED_LINKS = /rel="(stylesheet|modulepreload|preload|manifest|icon)"/;

function attributesOf(html: string, tag: string, attribute: string, only = /./): string[] {
  return [...html.matchAll(new RegExp(`<${tag}\\b[^>]*>`, 'g'))]
    .filter(([text]) => only.test(text))
    .flatMap(([text]) => new RegExp(`\\s${attribute}="([^"]+)"`).exec(text)?.slice(1) ?? []);
}

/** A script with the scripts that it can't start without, each once. */
function withImports(script: string, found = new Set<string>()): Set<string> {
  if (found.has(script)) return found;
  found.add(script);
  for (const [, to] of textOf(script).matchAll(/(?:\bfrom|\bimport)\s*"(\.\.?\/[^"]+\.js)"/g)) {
    withImports(posix.join(posix.dirname(script), to!), found);
  }
  return found;
}

function fontsIn(css: string): string[] {
  return [...textOf(css).matchAll(/url\(["']?([^"')]+\.woff2)/g)].map(([, url]) =>
    posix.resolve(posix.dirname(css), url!),
  );
}
