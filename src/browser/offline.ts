/** The page's side of the service worker: what is kept for use without a network, and new editions of the site. */

const REST_CACHE = 'dipwise-rest';
const SHARED_CACHE = 'dipwise-shared';

export interface RestFile {
  readonly url: string;
  readonly bytes: number;
  readonly kept: boolean;
}

export function canKeepSite(): boolean {
  return 'serviceWorker' in navigator && 'caches' in globalThis;
}

/** The files that come after the pages, and which of them are kept. @param base address of the site, ending in a slash */
export async function restFiles(base: string): Promise<RestFile[]> {
  const response = await fetch(new URL('offline.json', base));
  if (!response.ok) return [];
  const { rest } = (await response.json()) as { rest: { path: string; bytes: number }[] };
  const cache = await caches.open(REST_CACHE);
  const kept = new Set((await cache.keys()).map(({ url }) => url));
  return rest.map(({ path, bytes }) => {
    const url = new URL(path, base).href;
    return { url, bytes, kept: kept.has(url) };
  });
}

/**
 * Fetches what is missing, one file after the other, so that nothing the visitor does has to wait.
 * @param wanted leaves out files that should not be fetched without being asked for
 */
export async function keepRest(base: string, wanted: (file: RestFile) => boolean): Promise<void> {
  const files = await restFiles(base);
  for (const file of files) {
    if (file.kept || !wanted(file)) continue;
    // Through the service worker, which keeps it.
    const response = await fetch(file.url, { priority: 'low' });
    await response.arrayBuffer();
  }
  await forgetStale(base, new Set(files.map(({ url }) => url)));
}

/**
 * Files of former editions: only while no other tab may still be on one of those. What lies outside the base belongs to
 * another copy of the site on the same host.
 */
async function forgetStale(base: string, current: ReadonlySet<string>): Promise<void> {
  const registration = await navigator.serviceWorker.getRegistration();
  if (registration?.waiting) return;
  const cache = await caches.open(REST_CACHE);
  for (const { url } of await cache.keys()) {
    if (url.startsWith(base) && !current.has(url)) await cache.delete(url);
  }
}

/** The photo that another app shared, once. */
export async function takeSharedPhoto(base: string): Promise<Blob | null> {
  if (!canKeepSite() || !new URLSearchParams(location.search).has('shared')) return null;
  const cache = await caches.open(SHARED_CACHE);
  const url = new URL('shared-photo', base).href;
  const response = await cache.match(url);
  await cache.delete(url);
  history.replaceState(null, '', location.pathname);
  return response ? response.blob() : null;
}

/** A file that the visitor opened with the installed site. */
export function onOpenedFile(take: (file: File) => void): void {
  const queue = (globalThis as { launchQueue?: { setConsumer(consumer: (launch: Launch) => void): void } }).launchQueue;
  queue?.setConsumer(({ files }) => {
    void files[0]?.getFile().then(take);
  });
}

interface Launch {
  readonly files: readonly { getFile(): Promise<File> }[];
}

export interface SiteUpdates {
  /** A new edition is there and waits. */
  readonly onReady: (start: () => void) => void;
  /** A new edition has taken over, here or from another tab. */
  readonly onTaken: () => void;
}

const HOUR = 3_600_000;

export async function keepSite(base: string, { onReady, onTaken }: SiteUpdates): Promise<void> {
  const container = navigator.serviceWorker;
  let isControlled = container.controller !== null;
  const registration = await container.register(new URL('sw.js', base), { updateViaCache: 'none' });
  container.addEventListener('controllerchange', () => {
    // The very first worker takes over the page it came with: that is no new edition.
    if (isControlled) onTaken();
    isControlled = true;
  });
  const tell = () => {
    const { waiting } = registration;
    if (waiting && container.controller) onReady(() => waiting.postMessage({ type: 'SKIP_WAITING' }));
  };
  tell();
  registration.addEventListener('updatefound', () => {
    registration.installing?.addEventListener('statechange', tell);
  });
  let checked = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible' || Date.now() - checked < HOUR) return;
    checked = Date.now();
    // Without a network there is nothing to find out.
    registration.update().catch(() => undefined);
  });
  await container.ready;
}
