/* global URL, document, fetch, location, performance, sessionStorage, window */
// Stands in every page itself, before all scripts: a host that answers with its home page while it changes over, or a
// connection that breaks, must not leave a dead page. What can't be what it should be is fetched past the browser's own
// cache, and the page says so.
(() => {
  const KEY = 'dipwise:mending';
  let isMending = false;

  function say(text, button) {
    const place = document.querySelector('.site-notice') ?? document.createElement('aside');
    place.className = 'site-notice';
    place.setAttribute('role', 'status');
    const line = document.createElement('p');
    line.append(text);
    if (button) {
      const element = document.createElement('button');
      element.textContent = button;
      element.addEventListener('click', () => location.reload());
      line.append(' ', element);
    }
    place.replaceChildren(line);
    const head = document.querySelector('.masthead');
    if (head) head.after(place);
    else document.addEventListener('DOMContentLoaded', () => document.querySelector('.masthead').after(place));
  }

  function tries(set) {
    try {
      if (set === 0) sessionStorage.removeItem(KEY);
      else if (set) sessionStorage.setItem(KEY, set);
      return Number(sessionStorage.getItem(KEY));
    } catch {
      return 9;
    }
  }

  /** With all that it imports: a damaged part hides those behind it. */
  async function isSound(url, asked) {
    if (asked.has(url)) return true;
    asked.add(url);
    try {
      const response = await fetch(url, { cache: 'reload' });
      const text = await response.text();
      if (!response.ok || response.headers.get('content-type')?.startsWith('text/html')) return false;
      const imported = [...text.matchAll(/(?:from|import)\s*["'](\.\/[\w.@-]+\.js)["']/g)];
      const all = await Promise.all(imported.map(([, path]) => isSound(new URL(path, url).href, asked)));
      return all.every(Boolean);
    } catch {
      return false;
    }
  }

  async function mend(url, byItself) {
    if (isMending) return;
    isMending = true;
    say('A part of this page did not arrive as it should. It is being fetched again.');
    const seen = performance.getEntriesByType('resource').map(({ name }) => name.split(/[?#]/)[0]);
    const parts = new Set([url, ...seen].filter((name) => name && /\/_astro\/.*\.(js|css)$/.test(name)));
    const asked = new Set();
    const all = await Promise.all([...parts].map((part) => isSound(part, asked)));
    isMending = false;
    if (!all.every(Boolean) || tries() > 2) {
      say(
        'A part of this page can’t be fetched as it should be. What you have kept is safe; try again in a minute.',
        'Try again',
      );
    } else if (byItself) {
      tries(tries() + 1);
      location.reload();
    } else say('A part of this page did not arrive as it should. It was fetched again.', 'Load the page again');
  }

  window.addEventListener(
    'error',
    ({ target }) => {
      const url = target.src ?? target.href;
      // Once the page stands it may hold what isn't kept yet.
      const byItself = document.readyState !== 'complete';
      if (target.localName === 'script' || target.rel === 'stylesheet') void mend(url, byItself);
    },
    true,
  );
  // A script that is asked for later.
  window.addEventListener('vite:preloadError', () => void mend('', false));
  window.addEventListener('load', () => {
    if (isMending || !tries()) return;
    tries(0);
    say('A part of this page had not arrived as it should. It was fetched again.');
  });
})();
