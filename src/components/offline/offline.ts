/** On every page: keeps the site for use without a network, and tells of new editions. */
import { onMended } from '../../browser/mended.ts';
import { canKeepSite, keepRest, keepSite, type MissingFile } from '../../browser/offline.ts';
import { isPageHeld, onPageFree } from '../../browser/unsaved.ts';
import { h } from '../dom.ts';
import { siteBase } from '../href.ts';

/** After the page has come to rest; the read page needs the reader anyway. */
const REST_AFTER_MILLIS = 4000;
const HELD = 'A new edition of Dipwise is ready. It starts once you have kept, or left, what is on this page.';
const READY = 'A new edition of Dipwise is ready. ';
const ELSEWHERE =
  'A new edition of Dipwise has started in another tab. Load this page again once you have kept what is on it.';
const MENDED = 'A part of Dipwise had been damaged on this device, or on its way here. It is fetched again.';

const base = siteBase();

function notice(...content: (string | Node)[]): void {
  const place = document.querySelector('.site-notice') ?? h('aside', { class: 'site-notice', role: 'status' });
  place.replaceChildren(h('p', {}, ...content));
  document.querySelector('.masthead')?.after(place);
}

function offer(start: () => void): void {
  if (isPageHeld()) {
    notice(HELD);
    onPageFree(() => offer(start));
    return;
  }
  const button = h('button', { type: 'button' }, 'Start it');
  button.addEventListener('click', start);
  notice(READY, button);
}

function taken(): void {
  if (isPageHeld()) notice(ELSEWHERE);
  else location.reload();
}

/** Practice photos are many megabytes: not over a connection that is slow or paid by volume. */
function isWanted({ when }: MissingFile): boolean {
  const { connection } = navigator as { connection?: { saveData?: boolean; effectiveType?: string } };
  if (connection?.saveData) return false;
  return when !== 'photo' || (connection?.effectiveType ?? '4g') === '4g';
}

async function start(): Promise<void> {
  await keepSite(base, { onReady: offer, onTaken: taken, onDamaged: () => notice(MENDED) });
  const isReadPage = location.pathname === new URL('read/', base).pathname;
  await new Promise((resolve) => setTimeout(resolve, isReadPage ? 0 : REST_AFTER_MILLIS));
  await keepRest(base, isWanted);
}

// Storage denied, a connection lost half-way: the site works as any other, and the next visit tries again.
const tryToStart = () => void start().catch((error: unknown) => console.info('Not kept for offline use:', error));

onMended(() => notice(MENDED));
if (import.meta.env.PROD && canKeepSite()) {
  if (document.readyState === 'complete') tryToStart();
  else window.addEventListener('load', tryToStart);
}
