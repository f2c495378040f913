/** The tables in IndexedDB, how they are made, and the way from older data versions. */
import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from 'idb';
import { migrate } from '../../core/log/migrate.ts';
import { LOG_VERSION } from '../../core/log/schema.ts';
import type { Records } from './tables.ts';
import { TABLES } from './tables.ts';

export const DATABASE = 'dipwise-log';
/** The store has the version of the data in it. */
export const DATABASE_VERSION = LOG_VERSION;
export const BY_POOL_AND_TIME = 'by-pool-and-time';

type Stores = { [T in keyof Records]: { key: string; value: Records[T] } };

export interface LogDatabase extends DBSchema, Stores {
  entries: { key: string; value: Records['entries']; indexes: { [BY_POOL_AND_TIME]: [string, string] } };
}

type Upgrade = IDBPTransaction<LogDatabase, StoreNames<LogDatabase>[], 'versionchange'>;

/**
 * Runs inside the browser's version change: if anything here fails or the tab is closed meanwhile, the browser puts
 * everything back as it was.
 */
export async function upgrade(db: IDBPDatabase<LogDatabase>, from: number, transaction: Upgrade): Promise<void> {
  // Whoever opens the store is told of a failure by the opening itself.
  transaction.done.catch(() => undefined);
  if (from === 0) {
    for (const table of TABLES) {
      const store = db.createObjectStore(table, { keyPath: 'id' });
      if (table === 'entries') {
        (store as ReturnType<typeof db.createObjectStore<'entries'>>).createIndex(BY_POOL_AND_TIME, ['poolId', 'time']);
      }
    }
    return;
  }
  await migrateRecords(transaction, from);
}

async function migrateRecords(transaction: Upgrade, from: number): Promise<void> {
  const stores = {
    pools: transaction.objectStore('pools'),
    entries: transaction.objectStore('entries'),
    bin: transaction.objectStore('bin'),
    imports: transaction.objectStore('imports'),
  };
  const present = (raw: { pools?: readonly unknown[]; entries?: readonly unknown[] }) => {
    const result = migrate({ pools: raw.pools ?? [], entries: raw.entries ?? [] }, from);
    if (!result.ok) throw new Error(`no way from data version ${from}`);
    return result.log as { pools: Records['pools'][]; entries: Records['entries'][] };
  };
  const { pools, entries } = present({ pools: await stores.pools.getAll(), entries: await stores.entries.getAll() });
  for (const pool of pools) await stores.pools.put(pool);
  for (const entry of entries) await stores.entries.put(entry);
  for (const record of await stores.bin.getAll()) {
    const after = orAsItIs(record, () => {
      const old = present({ pools: record.pool ? [record.pool] : [], entries: record.entries });
      return { ...record, entries: old.entries, pool: old.pools[0] ?? null };
    });
    await stores.bin.put(after);
  }
  for (const record of await stores.imports.getAll()) {
    await stores.imports.put(orAsItIs(record, () => migrateImport(record, present)));
  }
}

/** What isn't sound stays as it lies, and is set aside when it is read: it must not lock all else away. */
function orAsItIs<T>(record: T, change: () => T): T {
  try {
    return change();
  } catch {
    return record;
  }
}

type Migrate = (raw: { pools?: readonly unknown[]; entries?: readonly unknown[] }) => {
  pools: Records['pools'][];
  entries: Records['entries'][];
};

function migrateImport(record: Records['imports'], present: Migrate): Records['imports'] {
  const { added, replaced } = record;
  return {
    ...record,
    added: { ...added, ...present(added) },
    replaced: {
      pools: replaced.pools.map((change) => {
        const [before, after] = present({ pools: [change.before, change.after] }).pools;
        return { before: before!, after: after! };
      }),
      entries: replaced.entries.map((change) => {
        const [before, after] = present({ entries: [change.before, change.after] }).entries;
        return { before: before!, after: after! };
      }),
    },
    outOfBin: present({ entries: record.outOfBin }).entries,
    // No file had any before version 4.
    choices: (record as Partial<typeof record>).choices ?? { add: [], replace: [] },
  };
}
