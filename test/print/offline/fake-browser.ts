/** As much of a browser as a service worker sees: its caches, its network, its pages. Everything can be made to fail. */
import { mkdtempSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { writeServiceWorker } from '../../../src/print/offline/integration.mjs';

export const FAULTS = ['page', 'truncated', '404', '500', 'dying', 'hanging'] as const;
export type Fault = (typeof FAULTS)[number];

const HOME = '<!doctype html><h1>home</h1>';

/** A build with a file of each kind. */
export function buildSite(edition: string): Map<string, string> {
  return new Map(
    [
      'index.html',
      'read/index.html',
      'theme.js',
      'manifest.webmanifest',
      'icon.svg',
      'card/card.pdf',
      'learn/search.json',
      `_astro/page.${edition}.js`,
      `_astro/page.${edition}.css`,
      `_astro/serif.woff2`,
      `_astro/worker-${edition}.js`,
      '_astro/practice.jpg',
    ].map((path) => [path, path === 'index.html' ? `${HOME}${edition}` : `${path}, as made for ${edition}`]),
  );
}

const scripts = new Map<ReadonlyMap<string, string>, string>();

/** The service worker's script for a build. */
export function scriptOf(site: ReadonlyMap<string, string>): string {
  const known = scripts.get(site) ?? writtenFor(site);
  scripts.set(site, known);
  return known;
}

function writtenFor(site: ReadonlyMap<string, string>): string {
  const folder = mkdtempSync(join(tmpdir(), 'dipwise-site-'));
  for (const [path, text] of site) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  writeServiceWorker(folder);
  // An install that hangs is given up after a minute.
  return readFileSync(join(folder, 'sw.js'), 'utf8').replace('INSTALL_MILLIS = 60_000', 'INSTALL_MILLIS = 30');
}

interface Kept {
  bytes: ArrayBuffer;
  headers: Headers;
}

export class FakeCache {
  readonly entries = new Map<string, Kept>();

  async put(key: string, response: Response): Promise<void> {
    this.entries.set(key, { bytes: await response.arrayBuffer(), headers: response.headers });
  }

  match(key: string, { ignoreSearch = false } = {}): Promise<Response | undefined> {
    const kept = this.entries.get(this.#find(key, ignoreSearch)[0] ?? '');
    return Promise.resolve(kept && new Response(kept.bytes.slice(0), { headers: kept.headers }));
  }

  keys(key?: string, { ignoreSearch = false } = {}): Promise<{ url: string }[]> {
    const all = key === undefined ? [...this.entries.keys()] : this.#find(key, ignoreSearch);
    return Promise.resolve(all.map((url) => ({ url })));
  }

  delete(key: string): Promise<boolean> {
    return Promise.resolve(this.entries.delete(key));
  }

  #find(key: string, ignoreSearch: boolean): string[] {
    const bare = (url: string) => (ignoreSearch ? url.split('?')[0] : url);
    return [...this.entries.keys()].filter((url) => bare(url) === bare(key));
  }
}

export class FakeCaches {
  readonly all = new Map<string, FakeCache>();

  open(name: string): Promise<FakeCache> {
    if (!this.all.has(name)) this.all.set(name, new FakeCache());
    return Promise.resolve(this.all.get(name)!);
  }

  has(name: string): Promise<boolean> {
    return Promise.resolve(this.all.has(name));
  }

  delete(name: string): Promise<boolean> {
    return Promise.resolve(this.all.delete(name));
  }
}

/** A host with one site, and the browser's own cache before it. */
export class FakeHost {
  site: ReadonlyMap<string, string>;
  /** What goes wrong, and whether past the browser's own cache all is well. */
  readonly faults = new Map<string, Fault>();
  isFaultOnlyCached = false;
  isDown = false;
  delayMillis = 0;
  asked: string[] = [];
  readonly #scope: string;

  constructor(site: ReadonlyMap<string, string>, scope: string) {
    this.site = site;
    this.#scope = scope;
  }

  fetch = async (
    asked: string | { url: string },
    { cache = 'default', signal }: { cache?: string; signal?: AbortSignal } = {},
  ) => {
    const url = typeof asked === 'string' ? asked : asked.url;
    const path = new URL(url).pathname.slice(new URL(this.#scope).pathname.length).replace(/(^|\/)$/, '$1index.html');
    this.asked.push(path);
    if (this.delayMillis > 0) await new Promise((resolve) => setTimeout(resolve, this.delayMillis));
    if (this.isDown) throw new TypeError('no network');
    const text = path === 'sw.js' ? scriptOf(this.site) : this.site.get(path);
    const fault = this.isFaultOnlyCached && cache === 'reload' ? undefined : this.faults.get(path);
    switch (text === undefined ? '404' : fault) {
      case undefined:
        return new Response(text, { headers: { 'content-type': 'text/plain', 'content-encoding': 'identity' } });
      case 'page':
        return new Response(HOME, { headers: { 'content-type': 'text/html' } });
      case 'truncated':
        return new Response(text!.slice(0, -3));
      case '404':
        return new Response(HOME, { status: 404, headers: { 'content-type': 'text/html' } });
      case '500':
        return new Response('sorry', { status: 500 });
      case 'dying':
        return new Response(
          new ReadableStream({
            start(controller) {
              controller.enqueue(new TextEncoder().encode(text!.slice(0, 4)));
              controller.error(new TypeError('the connection broke'));
            },
          }),
        );
      case 'hanging':
        return new Promise<Response>((_, reject) => {
          // What nobody gives up is given up by the browser, in the end.
          const timer = setTimeout(() => reject(new TypeError('timed out')), 60);
          signal?.addEventListener('abort', () => {
            clearTimeout(timer);
            reject(signal.reason as Error);
          });
        });
    }
  };
}

type Listener = (event: object) => void;

export class FakeWorker {
  readonly #listeners = new Map<string, Listener>();
  readonly #scope: string;
  /** Messages to the pages. */
  readonly said: { type: string }[] = [];
  readonly registration: { scope: string; waiting: object | null };

  constructor(script: string, scope: string, caches: FakeCaches, host: FakeHost) {
    this.#scope = scope;
    this.registration = { scope, waiting: null };
    const self = {
      registration: this.registration,
      addEventListener: (type: string, listener: Listener) => this.#listeners.set(type, listener),
      skipWaiting: () => Promise.resolve(),
    };
    const page = { url: scope, postMessage: (message: { type: string }) => this.said.push(message) };
    const clients = { claim: () => Promise.resolve(), matchAll: () => Promise.resolve([page]) };
    new Function('self', 'caches', 'clients', 'fetch', script)(self, caches, clients, host.fetch);
  }

  install = () => this.#event('install', {});
  activate = () => this.#event('activate', {});

  /** @returns null where the worker leaves the request to the browser */
  async get(path: string, mode = 'no-cors'): Promise<Response | null> {
    return this.#request({ method: 'GET', url: this.#scope + path, mode, referrer: '' });
  }

  /** A form with a photo, sent from some page. */
  async share(referrer: string): Promise<Response | null> {
    const body = new FormData();
    body.set('photo', new File(['a photo'], 'a.jpg', { type: 'image/jpeg' }));
    const request = { method: 'POST', url: `${this.#scope}read/`, mode: 'navigate', referrer };
    return this.#request({ ...request, formData: () => Promise.resolve(body) });
  }

  async ask(type: string): Promise<Record<string, unknown>> {
    let answer = {};
    const port = { postMessage: (message: object) => (answer = message) };
    await this.#event('message', { data: { type }, ports: [port] });
    return answer;
  }

  async #request(request: object): Promise<Response | null> {
    let answer: Promise<Response> | null = null;
    this.#listeners.get('fetch')!({ request, respondWith: (response: Promise<Response>) => (answer = response) });
    return answer;
  }

  async #event(type: string, more: object): Promise<void> {
    const waits: unknown[] = [];
    this.#listeners.get(type)!({ ...more, waitUntil: (promise: unknown) => waits.push(promise) });
    await Promise.all(waits);
  }
}
