/** The page's side of the service worker: what is kept for use without a network, and new editions of the site. */

export interface MissingFile {
  readonly url: string;
  readonly bytes: number;
  /** An edition can't be without the early ones; the others come once pages are idle. */
  readonly when: 'early' | 'reader' | 'photo';
}

/** What is kept of the site, as the service worker finds it. */
export interface SiteState {
  readonly edition: string;
  /** How many there are in all. */
  readonly files: number;
  readonly missing: readonly MissingFile[];
  /** When all kept files were last compared with the build's hashes, and how many were found damaged then. */
  readonly checked?: { readonly at: number; readonly files: number; readonly damaged: number };
  /** The last edition that couldn't be kept. */
  readonly failed?: { readonly why: string; readonly at: number };
}

export function canKeepSite(): boolean {
  return 'serviceWorker' in navigator && 'caches' in globalThis;
}

/** A worker that has been ended takes a moment to start; one that never answers is of no use. */
const ANSWER_MILLIS = 60_000;

/**
 * The worker of this copy of the site: another copy, at a shorter path of the same host, may have a page of ours in its
 * hands as well. @param base address of the site, ending in a slash
 */
async function registrationOf(base: string): Promise<ServiceWorkerRegistration | null> {
  const found = await navigator.serviceWorker.getRegistration(base);
  return found?.scope === base ? found : null;
}

/** @returns null where nothing of the site is kept @throws Error when the worker couldn't do it */
export async function askWorker(base: string, type: 'state' | 'mend' | 'check' | 'tidy'): Promise<SiteState | null> {
  const worker = (await registrationOf(base))?.active;
  return worker ? askOne(worker, type) : null;
}

function askOne(worker: ServiceWorker, type: string): Promise<SiteState> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve, reject) => {
    const timer = setTimeout(() => reject(new Error('the service worker did not answer')), ANSWER_MILLIS);
    port1.onmessage = ({ data }: MessageEvent<SiteState | { error: string }>) => {
      clearTimeout(timer);
      port1.close();
      if ('error' in data) reject(new Error(data.error));
      else resolve(data);
    };
    worker.postMessage({ type }, [port2]);
  });
}

/**
 * Fetches what is missing, one file after the other, so that nothing the visitor does has to wait.
 * @param wanted leaves out files that should not be fetched without being asked for
 */
export async function keepRest(base: string, wanted: (file: MissingFile) => boolean): Promise<void> {
  const state = await askWorker(base, 'mend');
  if (state) await inItsHands();
  for (const { url } of state?.missing.filter(wanted) ?? []) {
    // Through the service worker, which keeps it.
    const response = await fetch(url, { priority: 'low' });
    await response.arrayBuffer();
  }
  await askWorker(base, 'tidy');
}

/** Asked to mend, the worker takes every page of the site. */
function inItsHands(): Promise<unknown> {
  const { serviceWorker } = navigator;
  if (serviceWorker.controller) return Promise.resolve();
  return new Promise((resolve) => serviceWorker.addEventListener('controllerchange', resolve, { once: true }));
}

/** Takes the site off this device, and nothing of its neighbours. */
export async function forgetSite(base: string): Promise<void> {
  await (await registrationOf(base))?.unregister();
  await caches.delete(`dipwise ${base}`);
}

export type HandedOver =
  /** `isOurs` where a page of this site sent it; else another app, or a page that hides its name. */
  | { readonly photo: Blob; readonly isOurs: boolean }
  /** Another site sent it, and it wasn't taken. */
  | 'refused';

/** The photo that another app shared, once. */
export async function takeSharedPhoto(base: string): Promise<HandedOver | null> {
  const how = new URLSearchParams(location.search).get('shared');
  if (!canKeepSite() || how === null) return null;
  history.replaceState(null, '', location.pathname);
  if (how === 'refused') return 'refused';
  const cache = await caches.open(`dipwise ${base}`);
  const url = new URL('read/?shared-photo', base).href;
  const response = await cache.match(url);
  await cache.delete(url);
  return response ? { photo: await response.blob(), isOurs: response.headers.get('x-handed-by') === 'site' } : null;
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
  /** A kept file wasn't what the build made; it is fetched anew. */
  readonly onDamaged: () => void;
}

const HOUR = 3_600_000;

export async function keepSite(base: string, { onReady, onTaken, onDamaged }: SiteUpdates): Promise<void> {
  const container = navigator.serviceWorker;
  const script = new URL('sw.js', base).href;
  const isOurs = () => container.controller?.scriptURL === script;
  let isControlled = isOurs();
  container.addEventListener('message', ({ data }) => {
    if ((data as { type?: string }).type === 'damaged') onDamaged();
  });
  const registration = await container.register(script, { updateViaCache: 'none' });
  container.addEventListener('controllerchange', () => {
    // The very first worker takes over the page it came with: that is no new edition.
    if (isControlled) onTaken();
    isControlled = isOurs();
  });
  const tell = () => {
    const { waiting } = registration;
    if (waiting && isOurs()) onReady(() => waiting.postMessage({ type: 'start' }));
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
  await isActive(registration);
}

/** Settles once a worker is active, and has this page in its hands; rejects when the first one could not be installed. */
function isActive(registration: ServiceWorkerRegistration): Promise<void> {
  const worker = registration.active ?? registration.waiting ?? registration.installing;
  if (!worker || worker.state === 'activated') return Promise.resolve();
  return new Promise((resolve, reject) => {
    worker.addEventListener('statechange', () => {
      if (worker.state === 'activated') resolve();
      if (worker.state === 'redundant') reject(new Error('the site could not be kept whole'));
    });
  });
}
