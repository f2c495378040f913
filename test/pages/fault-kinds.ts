/** What goes wrong in a fault run, and how all is well again. */
import type { BrowserContext } from '@playwright/test';
import type { Place } from './fault-run.ts';
import type { HostFault } from './static-server.ts';

interface FaultKind {
  readonly name: string;
  readonly weight: number;
  readonly begin: (place: Place) => Promise<unknown>;
}

const HOST_FAULTS: readonly HostFault[] = ['page', 'truncated', 'missing', 'broken', 'dying', 'slow'];
const SKEW_KEY = 'fault:skew';
const DAY = 86_400_000;

export const FAULTS: readonly FaultKind[] = [
  { name: 'no network', weight: 3, begin: ({ context }) => context.setOffline(true) },
  { name: 'a host that answers some paths wrongly', weight: 6, begin: (place) => Promise.resolve(badHost(place)) },
  { name: 'caches cleared', weight: 2, begin: ({ page }) => page.evaluate(clearCaches) },
  { name: 'kept files damaged', weight: 4, begin: ({ page, random }) => page.evaluate(damageCaches, random()) },
  { name: 'no room', weight: 3, begin: (place) => flag(place, 'full') },
  { name: 'the store breaks', weight: 2, begin: (place) => flag(place, 'broken') },
  {
    name: 'the store does not answer',
    weight: 1,
    begin: (place) => flag(place, 'silent'),
  },
  { name: 'the clock is wrong', weight: 3, begin: ({ page, random }) => page.evaluate(setSkew, skewOf(random())) },
  { name: 'settings cleared', weight: 1, begin: ({ page }) => page.evaluate(() => localStorage.clear()) },
];

export async function clearFault({ page, context, server }: Place): Promise<void> {
  await context.setOffline(false);
  server.misbehave(() => null);
  await context.clearCookies();
  await page.goto(`${server.origin}/icon.svg`);
  await page.evaluate((key) => localStorage.removeItem(key), SKEW_KEY);
}

/** Faults of storage and clock are there before the page's own scripts. */
export async function installFaults(context: BrowserContext): Promise<void> {
  await context.addInitScript((key) => {
    const is = (name: string) => document.cookie.includes(`fault-${name}`);
    if (is('full')) {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('no room', 'QuotaExceededError');
      };
    }
    if (is('broken')) {
      IDBDatabase.prototype.transaction = () => {
        throw new DOMException('closed', 'InvalidStateError');
      };
    }
    if (is('silent')) {
      // Whoever listens hears nothing, of success or failure.
      const deaf = { addEventListener: () => undefined, removeEventListener: () => undefined };
      IDBFactory.prototype.open = () =>
        Object.assign(Object.create(IDBOpenDBRequest.prototype) as IDBOpenDBRequest, deaf);
    }
    const skew = Number(localStorage.getItem(key) ?? 0);
    if (skew === 0) return;
    const Real = Date;
    globalThis.Date = class extends Real {
      constructor(...parts: [] | [number]) {
        if (parts.length === 0) super(Real.now() + skew);
        else super(...parts);
      }
      static override now = () => Real.now() + skew;
    } as DateConstructor;
  }, SKEW_KEY);
}

function flag({ context, server }: Place, name: string): Promise<void> {
  return context.addCookies([{ name: `fault-${name}`, value: '1', url: server.origin }]);
}

/** Which paths, and how, is drawn once: a host that is changing over is wrong in the same way for a while. */
function badHost({ server, random }: Place): void {
  const [share, salt] = [random() * 0.6, Math.floor(random() * 1e6)];
  const fault = HOST_FAULTS[Math.floor(random() * HOST_FAULTS.length)]!;
  server.misbehave((path) => (drawn(`${salt}${path}`) < share ? fault : null));
}

/** From 0 to 1, always the same for a text. */
function drawn(text: string): number {
  let hash = 2_166_136_261;
  for (const character of text) hash = Math.imul(hash ^ character.charCodeAt(0), 16_777_619);
  return (hash >>> 0) / 2 ** 32;
}

function skewOf(drawn: number): readonly [string, number] {
  const skews = [-40 * DAY, 10 * 365 * DAY, 3_600_000, -30 * 365 * DAY];
  return [SKEW_KEY, skews[Math.floor(drawn * skews.length)]!];
}

function setSkew([key, millis]: readonly [string, number]): void {
  localStorage.setItem(key, String(millis));
}

async function clearCaches(): Promise<void> {
  for (const name of await caches.keys()) await caches.delete(name);
}

async function damageCaches(seed: number): Promise<void> {
  const damages = ['<!doctype html><h1>home</h1>', '', 'cut sh'];
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const [i, { url }] of (await cache.keys()).entries()) {
      if ((i * 7919 + Math.floor(seed * 1000)) % 5 === 0) await cache.put(url, new Response(damages[i % 3]));
    }
  }
}
