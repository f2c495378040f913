/* global self, caches, fetch, Response, URL, File */
/**
 * Joins the service worker that workbox-build writes, which keeps the pages. This part keeps what is fetched later
 * (the engine and the practice photos), takes photos shared from other apps, and mends addresses without their slash.
 * Written above it at build time: `self.dipwiseRest`, the paths of the files that come later.
 */
const REST_CACHE = 'dipwise-rest';
const SHARED_CACHE = 'dipwise-shared';
const scope = self.registration.scope;
const rest = new Set(self.dipwiseRest.map((path) => new URL(path, scope).href));
const readPage = new URL('read/', scope).href;

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method === 'POST' && url.href === readPage) event.respondWith(takeShared(request));
  else if (request.method !== 'GET') return;
  else if (rest.has(url.href)) event.respondWith(fromRest(request));
  else if (request.mode === 'navigate' && lacksSlash(url)) {
    event.respondWith(Response.redirect(`${url.origin}${url.pathname}/${url.search}`));
  }
});

/** Kept for good: these files have their content in their name. */
async function fromRest(request) {
  const cache = await caches.open(REST_CACHE);
  const kept = await cache.match(request.url);
  if (kept) return kept;
  const response = await fetch(request);
  // A device that is full can still read.
  if (response.status === 200) await cache.put(request.url, response.clone()).catch(() => undefined);
  return response;
}

/** A photo from the gallery's share menu waits here until the page takes it. */
async function takeShared(request) {
  const photo = (await request.formData()).get('photo');
  if (photo instanceof File) {
    const cache = await caches.open(SHARED_CACHE);
    const kept = new Response(photo, { headers: { 'content-type': photo.type || 'application/octet-stream' } });
    await cache.put(new URL('shared-photo', scope).href, kept);
  }
  return Response.redirect(`${readPage}?shared`, 303);
}

function lacksSlash({ href, pathname }) {
  return href.startsWith(scope) && !pathname.endsWith('/') && !pathname.slice(pathname.lastIndexOf('/')).includes('.');
}
