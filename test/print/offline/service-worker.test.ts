/** The service worker against a host and a device that fail in every way, a file of each kind in turn. */
import { describe, expect, it } from 'vitest';
import { buildSite, type Fault, FakeCaches, FakeHost, FAULTS, FakeWorker, scriptOf } from './fake-browser.ts';

const SCOPE = 'https://pool.example/garden/';
const first = buildSite('one');
const second = buildSite('two');
const [firstScript, secondScript] = [scriptOf(first), scriptOf(second)];
const early = (site: ReadonlyMap<string, string>) => [...site.keys()].filter((path) => !/\.jpg$|worker-/.test(path));
const cases = (paths: readonly string[]) =>
  paths.flatMap((path) => FAULTS.map((fault) => [path, fault] as [string, Fault]));

function start(script: string, { site = first, caches = new FakeCaches(), scope = SCOPE } = {}) {
  const host = new FakeHost(site, scope);
  return { host, caches, worker: new FakeWorker(script, scope, caches, host) };
}

async function installed() {
  const all = start(firstScript);
  await all.worker.install();
  await all.worker.activate();
  await all.worker.get('_astro/worker-one.js');
  return all;
}

async function textAt(worker: FakeWorker, path: string): Promise<string | null> {
  try {
    const response = await worker.get(path.replace(/(^|\/)index\.html$/, '$1'));
    return response?.type === 'error' || !response?.ok ? null : await response.text();
  } catch {
    return null;
  }
}

async function expectWhole(worker: FakeWorker, site: ReadonlyMap<string, string>, paths = early(site)): Promise<void> {
  for (const path of paths) expect(await textAt(worker, path), path).toBe(site.get(path));
}

describe('the first install', () => {
  it('keeps every page, script, style, font and drawing, and serves them without a network', async () => {
    const { host, worker } = await installed();
    host.isDown = true;
    await expectWhole(worker, first, [...early(first), '_astro/worker-one.js']);
    expect((await worker.get('_astro/page.one.js'))!.headers.get('content-type')).toBe('text/javascript');
    expect((await worker.get('_astro/worker-one.js'))!.headers.get('content-type')).toBe('text/javascript');
  });

  it.each(cases(early(first)))('%s arrives as: %s. Nothing is kept until it is whole', async (path, fault) => {
    const { host, worker, caches } = start(firstScript);
    host.faults.set(path, fault);
    await expect(worker.install()).rejects.toThrow(path);
    host.faults.clear();
    // The browser tries again with the next visit, with a worker of its own.
    const again = new FakeWorker(firstScript, SCOPE, caches, host);
    await again.install();
    host.isDown = true;
    await expectWhole(again, first);
  });

  it.each(cases(['_astro/page.one.js', '_astro/serif.woff2', '_astro/worker-one.js']))(
    '%s lies damaged in the browser’s own cache: %s. It is fetched past that',
    async (path, fault) => {
      const { host, worker } = start(firstScript);
      host.faults.set(path, fault);
      host.isFaultOnlyCached = true;
      await worker.install();
      expect(await textAt(worker, path)).toBe(first.get(path));
    },
  );
});

describe('what comes later', () => {
  it.each(cases(['_astro/worker-one.js', '_astro/practice.jpg']))(
    '%s arrives as: %s. It is neither served nor kept, and right the next time',
    async (path, fault) => {
      const { host, worker } = start(firstScript);
      await worker.install();
      host.faults.set(path, fault);
      expect(await textAt(worker, path)).toBeNull();
      const { missing } = (await worker.ask('state')) as { missing: { url: string }[] };
      expect(missing.map(({ url }) => url)).toContain(SCOPE + path);
      host.faults.clear();
      expect(await textAt(worker, path)).toBe(first.get(path));
    },
  );
});

describe('an update', () => {
  it.each(cases([...early(second), '_astro/worker-two.js']))(
    '%s arrives as: %s. The edition before stays whole, reader included',
    async (path, fault) => {
      const { caches, host, worker } = await installed();
      host.site = second;
      host.faults.set(path, fault);
      const next = new FakeWorker(secondScript, SCOPE, caches, host);
      // What both editions share is there already.
      if (first.get(path) !== second.get(path)) await expect(next.install()).rejects.toThrow(path);
      host.isDown = true;
      await expectWhole(worker, first, [...early(first), '_astro/worker-one.js']);
      host.isDown = false;
      host.faults.clear();
      await next.install();
      await next.activate();
      host.isDown = true;
      await expectWhole(next, second, [...early(second), '_astro/worker-two.js']);
      // A tab that still shows the edition before can go on with what it asks for late.
      await expectWhole(next, first, ['_astro/page.one.js']);
    },
  );

  it('asks only for what has changed', async () => {
    const { caches, host } = await installed();
    const same = new Map([...first, ['index.html', 'another home page']]);
    host.site = same;
    host.asked = [];
    await new FakeWorker(scriptOf(same), SCOPE, caches, host).install();
    expect(host.asked).toEqual(['index.html']);
  });

  it('forgets the edition before once a single tab is open, and nothing of its neighbours', async () => {
    const { caches, host, worker } = await installed();
    const neighbour = start(firstScript, { caches, scope: 'https://pool.example/' });
    await neighbour.worker.install();
    (await caches.open('somebody else’s')).entries.set('x', { bytes: new ArrayBuffer(1), headers: new Headers() });
    host.site = second;
    const next = new FakeWorker(secondScript, SCOPE, caches, host);
    await next.install();
    worker.registration.waiting = {};
    await worker.ask('tidy');
    expect(await textAt(worker, '_astro/page.one.js')).toBe(first.get('_astro/page.one.js'));
    await next.activate();
    await next.ask('tidy');
    const mine = [...(await caches.open(`dipwise ${SCOPE}`)).entries.keys()].join(' ');
    expect(mine).not.toContain('one');
    expect(mine).toContain('two');
    neighbour.host.isDown = true;
    await expectWhole(neighbour.worker, first);
    expect(await caches.has('somebody else’s')).toBe(true);
  });

  it('a script that was cut short does not run', () => {
    for (let length = 1; length < firstScript.length - 2; length += 131) {
      expect(() => new Function(firstScript.slice(0, length)), String(length)).toThrow(SyntaxError);
    }
  });
});

describe('at rest', () => {
  const DAMAGES = {
    'a page': () => '<!doctype html><h1>home</h1>',
    'cut short': (text: string) => text.slice(0, -3),
    empty: () => '',
  };
  const damaged = [...early(first), '_astro/worker-one.js'].flatMap((path) =>
    Object.keys(DAMAGES).map((how) => [path, how as keyof typeof DAMAGES] as const),
  );

  async function damage(caches: FakeCaches, path: string, how: keyof typeof DAMAGES): Promise<void> {
    const { entries } = await caches.open(`dipwise ${SCOPE}`);
    const address = SCOPE + path.replace(/(^|\/)index\.html$/, '$1');
    const key = [...entries.keys()].find((url) => url.startsWith(`${address}?`) && !url.endsWith('?kept'))!;
    const bytes = new TextEncoder().encode(DAMAGES[how](first.get(path)!)).buffer;
    entries.set(key, { bytes, headers: new Headers({ 'content-type': 'text/html' }) });
  }

  it.each(damaged)('%s has become: %s. It is fetched anew, told of, and never served', async (path, how) => {
    const { caches, host, worker } = await installed();
    await damage(caches, path, how);
    host.isDown = true;
    expect(await textAt(worker, path)).toBeNull();
    expect(worker.said).toContainEqual({ type: 'damaged', path });
    host.isDown = false;
    await damage(caches, path, how).catch(() => undefined);
    expect(await textAt(worker, path)).toBe(first.get(path));
    host.isDown = true;
    expect(await textAt(worker, path)).toBe(first.get(path));
  });

  it.each(cases(early(first)))(
    '%s has become a page on the device, and arrives as: %s. Neither is served',
    async (path, fault) => {
      const { caches, host, worker } = await installed();
      await damage(caches, path, 'a page');
      host.faults.set(path, fault);
      expect(await textAt(worker, path)).toBeNull();
      host.faults.clear();
      expect(await textAt(worker, path)).toBe(first.get(path));
    },
  );

  it('a page that is nowhere to be had is told of in a sentence', async () => {
    const { caches, host, worker } = await installed();
    caches.all.clear();
    host.isDown = true;
    const answer = (await worker.get('read/', 'navigate'))!;
    expect(answer.status).toBe(503);
    expect(await answer.text()).toContain('What you have kept is safe.');
  });

  it.each(cases(['index.html', 'theme.js', 'sw.js']))(
    'a later edition on the host, %s arrives as: %s',
    async (path, fault) => {
      const { caches, host, worker } = await installed();
      caches.all.clear();
      host.site = second;
      host.faults.set(path, fault);
      // The list stands at the beginning of the script.
      const isListGone = path === 'sw.js' && fault !== 'truncated';
      for (const one of ['index.html', 'theme.js']) {
        expect(await textAt(worker, one)).toBe(isListGone || path === one ? null : second.get(one));
      }
    },
  );

  it('a check finds what is damaged, mends it, and tells when and how much', async () => {
    const { caches, host, worker } = await installed();
    const before = (await worker.ask('check')) as { checked: { at: number; files: number; damaged: number } };
    expect(before.checked).toMatchObject({ files: first.size - 1, damaged: 0 });
    await damage(caches, '_astro/page.one.css', 'a page');
    await damage(caches, '_astro/worker-one.js', 'cut short');
    const after = (await worker.ask('check')) as typeof before;
    expect(after.checked).toMatchObject({ files: first.size - 1, damaged: 2 });
    expect(after.checked.at).toBeGreaterThanOrEqual(before.checked.at);
    host.isDown = true;
    await expectWhole(worker, first, [...early(first), '_astro/worker-one.js']);
  });

  it('caches cleared while the worker stays: told, and kept again', async () => {
    const { caches, host, worker } = await installed();
    caches.all.clear();
    const gone = (await worker.ask('state')) as { missing: unknown[] };
    expect(gone.missing).toHaveLength(first.size);
    await worker.ask('mend');
    host.isDown = true;
    await expectWhole(worker, first);
  });

  it('a later edition on the host: its pages are shown, its scripts never under a name of this one', async () => {
    const { caches, host, worker } = await installed();
    caches.all.clear();
    host.site = second;
    expect(await textAt(worker, 'index.html')).toBe(second.get('index.html'));
    expect(await textAt(worker, '_astro/page.two.js')).toBe(second.get('_astro/page.two.js'));
    expect(await textAt(worker, '_astro/page.one.js')).toBeNull();
    expect(await worker.ask('mend')).toHaveProperty('error');
  });
});

it('a slow host: an edition is installed whole, updated and mended, only later', async () => {
  const { caches, host, worker } = start(firstScript);
  host.delayMillis = 10;
  await worker.install();
  await worker.activate();
  caches.all.clear();
  await worker.ask('mend');
  host.site = second;
  const next = new FakeWorker(secondScript, SCOPE, caches, host);
  await next.install();
  host.isDown = true;
  await expectWhole(worker, first);
  await expectWhole(next, second);
});

describe('a photo handed over', () => {
  it.each([
    ['https://pool.example/garden/scales/', 'site', '?shared'],
    ['', 'nobody', '?shared'],
    ['about:client', 'nobody', '?shared'],
    ['https://elsewhere.example/', null, '?shared=refused'],
    ['https://pool.example/', null, '?shared=refused'],
  ])('from %j', async (referrer, by, search) => {
    const { caches, worker } = await installed();
    const answer = await worker.share(referrer);
    expect(answer!.status).toBe(303);
    expect(answer!.headers.get('location')).toBe(`${SCOPE}read/${search}`);
    const kept = await (await caches.open(`dipwise ${SCOPE}`)).match(`${SCOPE}read/?shared-photo`);
    expect(kept?.headers.get('x-handed-by') ?? null).toBe(by);
  });
});

it('files of earlier ways of keeping go, those of a neighbour stay', async () => {
  const { caches, worker } = start(firstScript);
  const kept = { bytes: new ArrayBuffer(1), headers: new Headers() };
  for (const scope of [SCOPE, 'https://pool.example/']) {
    (await caches.open(`workbox-precache-v2-${scope}`)).entries.set(scope, kept);
    (await caches.open('dipwise-rest')).entries.set(`${scope}_astro/worker-old.js`, kept);
  }
  await worker.install();
  await worker.activate();
  expect(await caches.has(`workbox-precache-v2-${SCOPE}`)).toBe(false);
  expect(await caches.has('workbox-precache-v2-https://pool.example/')).toBe(true);
  expect([...(await caches.open('dipwise-rest')).entries.keys()]).toEqual([
    'https://pool.example/_astro/worker-old.js',
  ]);
});
