/** Which pool a row of a table means. */
import { cleanText } from '../text.ts';
import type { CsvContext } from './read-csv.ts';
import { NOTHING_KNOWN } from './pool-record.ts';
import type { Pool } from './schema.ts';

/** Finds the pool that a row means, by id, else by name; makes one for a name that is new. */
export class Pools {
  readonly #context: CsvContext;
  readonly #byName = new Map<string, string>();
  readonly found: Pool[] = [];

  constructor(context: CsvContext) {
    this.#context = context;
    for (const { name, id } of context.pools) this.#byName.set(name, id);
  }

  add(pool: Pool): void {
    this.found.push(pool);
    this.#byName.set(pool.name, pool.id);
  }

  idOf(cells: (name: string) => string): string {
    const id = cells('pool id');
    if (id !== '') return id;
    const name = cleanText(cells('pool'), 120).trim();
    if (name === '') return this.#context.poolId;
    const known = this.#byName.get(name);
    if (known !== undefined) return known;
    const { newId, now } = this.#context;
    const pool = { id: newId(), name, revision: 1, edited: now, ...NOTHING_KNOWN };
    this.add(pool);
    return pool.id;
  }
}
