/* global btoa, self, caches, clients, fetch, crypto, Response, Headers, URL, File, AbortSignal */
/**
 * The service worker: keeps an edition of the site, each file compared with the hash that the build wrote above this
 * text. `self.dipwiseFiles` lists [path, SHA-256 in base64, bytes, when]; `when` is 'early' for what an edition can't be
 * without, 'reader' and 'photo' for what pages ask for once they are idle. `self.dipwiseEdition` is a hash of the list.
 *
 * A kept file's key is its address with its hash behind it, so two editions share what hasn't changed, and a file of
 * the edition before stays for the tab that still shows it.
 */
const scope = self.registration.scope;
/** Two copies of the site may live on one host, one of them inside the other's path. */
const CACHE = `dipwise ${scope}`;
const TYPES = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript',
  css: 'text/css',
  json: 'application/json',
  webmanifest: 'application/manifest+json',
  svg: 'image/svg+xml',
  txt: 'text/plain; charset=utf-8',
};
/** An install that hangs would keep every later one from starting. */
const INSTALL_MILLIS = 60_000;
const AT_ONCE = 6;
/** Shown in the place of a page that is neither kept nor reachable. */
const SORRY = `<!doctype html><html lang="en"><meta name="viewport" content="width=device-width"><title>Dipwise</title>
<p>This page can’t be had as it should be, neither from this device nor from the network. What you have kept is safe.
<a href="">Try again</a></p></html>`;
const SORRY_HEADERS = { 'content-type': TYPES.html };

const files = new Map(self.dipwiseFiles.map(([path, hash, bytes, when]) => [path, { path, hash, bytes, when }]));
const readPage = new URL('read/', scope).href;
const sharedPhoto = new URL('read/?shared-photo', scope).href;
const notes = new URL('?kept', scope).href;

self.addEventListener('install', (event) => event.waitUntil(install()));
self.addEventListener('activate', (event) => event.waitUntil(Promise.all([clients.claim(), forgetOld()])));
self.addEventListener('message', (event) => event.waitUntil(answer(event)));
self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (!url.href.startsWith(scope)) return;
  if (request.method === 'POST' && url.href === readPage) event.respondWith(takeShared(request));
  if (request.method !== 'GET') return;
  const path = decodeURI(url.pathname.slice(new URL(scope).pathname.length));
  const file = files.get(path) ?? files.get(`${path}index.html`);
  if (file) event.respondWith(serve(file, request));
  else if (request.mode === 'navigate' && files.has(`${path}/index.html`)) {
    event.respondWith(Response.redirect(`${url.origin}${url.pathname}/${url.search}`));
  } else if (path.startsWith('_astro/')) event.respondWith(serveFormer(url, request));
});

/** A directory is asked for as the pages link to it. */
function addressOf({ path }) {
  return new URL(path.replace(/(^|\/)index\.html$/, '$1'), scope).href;
}

function keyOf(file) {
  return `${addressOf(file)}?${encodeURIComponent(file.hash)}`;
}

async function hashOf(bytes) {
  const digest = await crypto.subtle.digest('SHA-256', bytes);
  return btoa(String.fromCharCode(...new Uint8Array(digest)));
}

/** Whole or not at all. With a reader kept before, the new edition's belongs to it: nobody loses it by an update. */
async function install() {
  const cache = await caches.open(CACHE);
  const hadReader = (await cache.keys()).some(({ url }) => /\/_astro\/worker-[^/]*\.js$/.test(new URL(url).pathname));
  const wanted = [...files.values()].filter(({ when }) => when === 'early' || (hadReader && when === 'reader'));
  try {
    await keep(cache, wanted, INSTALL_MILLIS);
  } catch (error) {
    await note({ failed: { why: String(error.message), at: Date.now() } });
    throw error;
  }
  await check(INSTALL_MILLIS);
}

/** Fetches what isn't kept. @throws Error naming the first file that couldn't be had */
async function keep(cache, wanted, millis) {
  const kept = await keptKeys(cache);
  const missing = wanted.filter((file) => !kept.has(keyOf(file)));
  await Promise.all(
    Array.from({ length: AT_ONCE }, async () => {
      for (let file = missing.shift(); file; file = missing.shift()) {
        const found = await fetchSound(file, millis);
        if (!found.response) {
          missing.length = 0;
          throw new Error(`${file.path}: ${found.why}`);
        }
        await cache.put(keyOf(file), found.response);
      }
    }),
  );
}

/**
 * A file from the network, as the build made it. What comes damaged is asked for once more past the browser's own cache,
 * which may hold the damage for a year.
 */
async function fetchSound(file, millis) {
  let why = '';
  for (const mode of file.path.startsWith('_astro/') ? ['default', 'reload'] : ['reload']) {
    try {
      const signal = millis ? AbortSignal.timeout(millis) : undefined;
      const response = await fetch(addressOf(file), { cache: mode, credentials: 'same-origin', signal });
      const bytes = await response.arrayBuffer();
      if (response.status === 200 && (await hashOf(bytes)) === file.hash) {
        return { response: new Response(bytes, { headers: headersFor(file, response) }) };
      }
      why = response.status === 200 ? 'not what the build made' : `status ${response.status}`;
    } catch (error) {
      why = `no answer (${error.name})`;
    }
  }
  return { why };
}

/** The host's, but for the type: a script sent as a page would never run. */
function headersFor({ path }, response) {
  const headers = new Headers(response.headers);
  for (const name of ['content-encoding', 'content-length', 'transfer-encoding']) headers.delete(name);
  const type = TYPES[path.slice(path.lastIndexOf('.') + 1)];
  if (type) headers.set('content-type', type);
  return headers;
}

/** @returns the kept file where it is sound; what isn't is forgotten */
async function soundIn(cache, file) {
  const kept = await cache.match(keyOf(file)).catch(() => undefined);
  if (!kept) return null;
  const bytes = await kept
    .clone()
    .arrayBuffer()
    .catch(() => null);
  if (bytes && (await hashOf(bytes)) === file.hash) return kept;
  await cache.delete(keyOf(file));
  tellPages({ type: 'damaged', path: file.path });
  return null;
}

async function serve(file, request) {
  const cache = await caches.open(CACHE).catch(() => null);
  const kept = cache && (await soundIn(cache, file));
  if (kept) return kept;
  const found = await fetchSound(file);
  if (found.response) {
    // A device that is full can still read.
    await cache?.put(keyOf(file), found.response.clone()).catch(() => undefined);
    return found.response;
  }
  // A name that holds a hash has one content: anything else would only break the page.
  const later = file.path.startsWith('_astro/') ? null : await laterEditionOf(file).catch(() => null);
  const page = later && (await fetchSound(later)).response;
  if (page) return page;
  return request.mode === 'navigate' ? new Response(SORRY, { status: 503, headers: SORRY_HEADERS }) : Response.error();
}

/** As the host's own service worker lists it: that of a later edition than this, where the host is ahead. */
async function laterEditionOf({ path }) {
  const script = await (await fetch(new URL('sw.js', scope).href, { cache: 'reload' })).text();
  const list = /^self\.dipwiseFiles = (\[.*\]);$/m.exec(script);
  const [, hash] = JSON.parse(list[1]).find(([other]) => other === path);
  return { path, hash };
}

/** A tab may still show the edition before, whose files carry other names. */
async function serveFormer(url, request) {
  const cache = await caches.open(CACHE).catch(() => null);
  const address = `${url.origin}${url.pathname}`;
  const kept = await cache?.match(address, { ignoreSearch: true });
  if (!kept) return fetch(request);
  const [key] = await cache.keys(address, { ignoreSearch: true });
  const hash = decodeURIComponent(new URL(key.url).search.slice(1));
  return (await hashOf(await kept.clone().arrayBuffer())) === hash ? kept : fetch(request);
}

async function keptKeys(cache) {
  return new Set((await cache.keys()).map(({ url }) => url));
}

/** What pages ask of the worker. Every question is answered through its port. */
async function answer({ data, ports: [port] }) {
  if (data.type === 'start') return self.skipWaiting();
  try {
    if (data.type === 'mend') await mend();
    if (data.type === 'check') await check();
    if (data.type === 'tidy') await tidy();
    port?.postMessage(await state());
  } catch (error) {
    port?.postMessage({ error: String(error.message) });
  }
}

/**
 * What an edition can't be without, where the browser or somebody has cleared it. A page that was on its way while this
 * worker took over has none yet: what it fetches wouldn't be kept.
 */
async function mend() {
  await clients.claim();
  const early = [...files.values()].filter(({ when }) => when === 'early');
  await keep(await caches.open(CACHE), early);
}

/** Compares every kept file with its hash, and fetches anew what isn't right. */
async function check(millis) {
  const cache = await caches.open(CACHE);
  const kept = await keptKeys(cache);
  const bad = [];
  let sound = 0;
  for (const file of files.values()) {
    if (!kept.has(keyOf(file))) continue;
    if (await soundIn(cache, file)) sound += 1;
    else bad.push(file);
  }
  await keep(cache, bad, millis);
  await note({ checked: { at: Date.now(), files: sound + bad.length, damaged: bad.length } });
}

/** What nobody needs any more, once a single tab is open. Caches of other copies are not touched. */
async function tidy() {
  const open = await clients.matchAll({ type: 'window', includeUncontrolled: true });
  if (self.registration.waiting || open.filter(({ url }) => url.startsWith(scope)).length > 1) return;
  const cache = await caches.open(CACHE);
  const current = new Set([...files.values()].map(keyOf).concat(notes, sharedPhoto));
  for (const { url } of await cache.keys()) if (!current.has(url)) await cache.delete(url);
}

/** What editions before this way of keeping files have left. */
async function forgetOld() {
  await caches.delete(`workbox-precache-v2-${scope}`);
  for (const [name, start] of [
    ['dipwise-rest', `${scope}_astro/`],
    ['dipwise-shared', `${scope}shared-photo`],
  ]) {
    if (!(await caches.has(name))) continue;
    const cache = await caches.open(name);
    for (const { url } of await cache.keys()) if (url.startsWith(start)) await cache.delete(url);
  }
}

async function state() {
  const cache = await caches.open(CACHE);
  const kept = await keptKeys(cache);
  const missing = [...files.values()]
    .filter((file) => !kept.has(keyOf(file)))
    .map((file) => ({ url: addressOf(file), bytes: file.bytes, when: file.when }));
  return { edition: self.dipwiseEdition, files: files.size, missing, ...(await noted(cache)) };
}

async function noted(cache) {
  const kept = await cache.match(notes);
  return kept ? kept.json().catch(() => ({})) : {};
}

async function note(more) {
  try {
    const cache = await caches.open(CACHE);
    const all = { ...(await noted(cache)), edition: self.dipwiseEdition, ...more };
    if (more.checked) delete all.failed;
    await cache.put(notes, new Response(JSON.stringify(all)));
  } catch {
    // Nothing depends on it.
  }
}

async function tellPages(message) {
  for (const page of await clients.matchAll({ type: 'window' })) page.postMessage(message);
}

/**
 * A photo from the gallery's share menu waits here until the page takes it. Who sent the form is told by its referrer
 * alone: another site can leave that out but not forge it, and so what comes from nobody is kept as such, for the page
 * to ask about.
 */
async function takeShared(request) {
  const from = request.referrer && new URL(request.referrer, scope).href;
  if (from && !from.startsWith(scope) && request.referrer !== 'about:client') {
    return Response.redirect(`${readPage}?shared=refused`, 303);
  }
  const photo = (await request.formData()).get('photo');
  if (photo instanceof File) {
    const cache = await caches.open(CACHE);
    const type = photo.type || 'application/octet-stream';
    const headers = { 'content-type': type, 'x-handed-by': from.startsWith(scope) ? 'site' : 'nobody' };
    await cache.put(sharedPhoto, new Response(photo, { headers }));
  }
  return Response.redirect(`${readPage}?shared`, 303);
}
