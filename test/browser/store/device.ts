/** The store on the device, on a stand-in for IndexedDB that is empty before every test. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, vi } from 'vitest';
import { openIdbStore } from '../../../src/browser/store/idb-store.ts';
import type { LogStore } from '../../../src/browser/store/store.ts';

export const JPEG = new Uint8Array([0xff, 0xd8, 0xff, 0xd9]);

export const events = { onBlocked: vi.fn(), onTakenOver: vi.fn(), onEmptied: vi.fn() };
const open: LogStore[] = [];

export function emptyDevice(): void {
  beforeEach(() => {
    globalThis.indexedDB = new IDBFactory();
    vi.clearAllMocks();
  });

  afterEach(() => {
    for (const store of open.splice(0)) store.close();
  });
}

export async function onDevice(): Promise<LogStore> {
  const store = await openIdbStore(events);
  open.push(store);
  return store;
}
