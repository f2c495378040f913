/** What is kept on the device, and how much room it takes. */
import { askWorker, canKeepSite, type SiteState } from '../../browser/offline.ts';
import type { Logbook } from '../../browser/store/logbook.ts';
import { isPersisted, usage } from '../../browser/store/persistence.ts';
import { momentText } from '../../words/dates.ts';
import { bytesText } from '../../words/log.ts';
import { countText } from '../../words/grammar.ts';

export interface Fact {
  readonly name: string;
  readonly text: string;
}

export async function storedFacts(logbook: Logbook, base: string): Promise<Fact[]> {
  const [room, held] = [await usage(), await isPersisted()];
  return [
    { name: 'Logbook', text: await logText(logbook) },
    { name: 'Strip scales', text: `${await logbook.store.count('scales')} of your own` },
    ...(await siteFacts(base)),
    {
      name: 'Room',
      text: room
        ? `${bytesText(room.usedBytes)} taken, site and logbook together; the browser allows ${bytesText(room.roomBytes)}`
        : 'the browser doesn’t tell',
    },
    {
      name: 'How firmly',
      text:
        held === null
          ? 'the browser doesn’t tell'
          : held
            ? 'the browser will not clear it by itself'
            : 'the browser may clear it when the device runs out of room',
    },
  ];
}

async function logText({ store }: Logbook): Promise<string> {
  if (store.kind === 'newer') return 'written by a newer Dipwise and left alone';
  const [entries, pictures, bin] = [
    await store.count('entries'),
    await store.all('pictures'),
    await store.count('bin'),
  ];
  const bytes = pictures.reduce((sum, { jpeg }) => sum + jpeg.length, 0);
  const shots =
    pictures.length > 0 ? `, ${countText(pictures.length, 'picture', 'pictures')} (${bytesText(bytes)})` : '';
  const deleted = bin > 0 ? `, ${countText(bin, 'deletion', 'deletions')} in the bin` : '';
  const where = store.kind === 'memory' ? '; this browser keeps it only until the page is closed' : '';
  return `${countText(entries, 'entry', 'entries')} of ${countText(await store.count('pools'), 'pool', 'pools')}${shots}${deleted}${where}`;
}

/** @returns what is kept of the site, and when it was last compared with what the build made */
async function siteFacts(base: string): Promise<Fact[]> {
  const state = canKeepSite() ? await askWorker(base, 'state').catch(() => null) : null;
  if (!state) return [{ name: 'This site', text: 'not kept for use without a network' }];
  const facts = [{ name: 'This site', text: siteText(state) }];
  const { checked, failed } = state;
  if (checked) {
    const mended =
      checked.damaged > 0 ? `; ${countText(checked.damaged, 'was', 'were')} damaged and fetched again` : '';
    facts.push({
      name: 'Verified',
      text: `${momentText(new Date(checked.at).toISOString())}: ${countText(checked.files, 'kept file', 'kept files')} compared with what the build made${mended}`,
    });
  }
  if (failed) {
    const text = `could not be kept on ${momentText(new Date(failed.at).toISOString())} (${failed.why}); the one before goes on, and the next visit tries again`;
    facts.push({ name: 'A new edition', text });
  }
  return facts;
}

function siteText({ missing }: SiteState): string {
  if (missing.length === 0) return 'works without a network, practice photos included';
  const bytes = bytesText(missing.reduce((sum, file) => sum + file.bytes, 0));
  const early = missing.filter(({ when }) => when === 'early').length;
  if (early > 0) {
    return `${countText(early, 'part is', 'parts are')} missing on this device, so not all pages work without a network (${bytes})`;
  }
  return missing.some(({ when }) => when === 'reader')
    ? `pages work without a network; the reader is still to come (${bytes})`
    : `works without a network, reading included; ${countText(missing.length, 'practice photo is', 'practice photos are')} still to come (${bytes})`;
}

export async function contentLine({ store }: Logbook): Promise<string> {
  if (store.kind === 'newer')
    return 'The logbook here was written by a newer Dipwise. All of it would be gone for good.';
  const [entries, pictures, scales] = [
    await store.count('entries'),
    await store.count('pictures'),
    await store.count('scales'),
  ];
  return `${countText(entries, 'entry', 'entries')}, ${countText(pictures, 'picture', 'pictures')} and ${countText(scales, 'strip scale', 'strip scales')} would be gone for good.`;
}
