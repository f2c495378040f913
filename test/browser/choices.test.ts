/** Settings and the plan's form, out to a file and in again. */
import fc from 'fast-check';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { keptChoices, putChoices, removeChoices } from '../../src/browser/choices.ts';
import { Logbook } from '../../src/browser/store/logbook.ts';
import { applyImport, takeBack } from '../../src/components/log/import.ts';
import { isIdle } from '../../src/core/log/merge.ts';
import { writeLogJson } from '../../src/core/log/write-json.ts';
import type { Choice } from '../../src/core/log/choices.ts';
import { choices } from '../core/log/arbitrary.ts';
import { emptyDevice, onDevice } from './store/device.ts';
import { previewText } from './store/preview-text.ts';

/** As the browser's: a plain map of texts. */
class Storage {
  readonly #items = new Map<string, string>();
  getItem = (key: string) => this.#items.get(key) ?? null;
  setItem = (key: string, value: string) => void this.#items.set(key, value);
  removeItem = (key: string) => void this.#items.delete(key);
  all = () => Object.fromEntries([...this.#items].sort(([a], [b]) => (a < b ? -1 : 1)));
}

emptyDevice();
const openedLogbook = async () =>
  new Logbook({ store: await onDevice(), lost: null, clockBehind: null, trouble: null });

let storage: Storage;
beforeEach(() => {
  storage = new Storage();
  vi.stubGlobal('localStorage', storage);
});

const sorted = (list: readonly Choice[]) => [...list].sort((a, b) => (a.key < b.key ? -1 : 1));

async function fileOf(chosen: readonly Choice[]): Promise<string> {
  const parts: string[] = [];
  const data = { pools: [], entries: [], scales: [], choices: chosen };
  for await (const part of writeLogJson(data, [], '2026-07-01T00:00:00.000Z', 'All.')) parts.push(part);
  return parts.join('');
}

async function preview(chosen: readonly Choice[], opened?: Logbook) {
  const logbook = opened ?? (await openedLogbook());
  const result = await previewText(logbook, 'file.json', await fileOf(chosen));
  if (!result.ok) throw new Error(result.failure);
  return { logbook, desk: result.desk, preview: result.preview };
}

describe('what is kept', () => {
  it('comes out as it went in, and is removed completely', () => {
    fc.assert(
      fc.property(choices, (chosen) => {
        storage = new Storage();
        vi.stubGlobal('localStorage', storage);
        putChoices(chosen);
        expect(sorted(keptChoices())).toEqual(sorted(chosen));
        removeChoices(chosen.map(({ key }) => key));
        expect(storage.all()).toEqual({});
      }),
      { seed: 51, numRuns: 300 },
    );
  });

  it('keeps the bottles where everything else of the form goes', () => {
    const bottles: Choice = {
      key: 'plan.bottles',
      value: { 'sodium-hypochlorite': { basis: 'by-weight' } },
    };
    putChoices([bottles, { key: 'plan.pool.surface', value: 'vinyl' }]);
    removeChoices(['plan.pool.surface']);
    expect(keptChoices()).toEqual([bottles]);
  });

  it('passes over what this site never wrote', () => {
    storage.setItem('dipwise:units', 'furlongs');
    storage.setItem('dipwise:plan-form', '{"fields":{"pool.volumeLitres":null,"__proto__":1,"pool.surface":"vinyl"}}');
    storage.setItem('dipwise:spans', '{');
    expect(keptChoices()).toEqual([]);
    storage.setItem('dipwise:plan-form', '{"fields":{"pool.volumeLitres":null,"pool.surface":"vinyl"},"shelf":{}}');
    expect(sorted(keptChoices())).toEqual([
      { key: 'plan.pool.surface', value: 'vinyl' },
      { key: 'plan.shelf', value: {} },
    ]);
  });
});

describe('bringing a file in', () => {
  const mine: Choice[] = [
    { key: 'settings.units', value: 'metric' },
    { key: 'plan.pool.volumeLitres', value: 28_500 },
  ];
  const theirs: Choice[] = [
    { key: 'settings.units', value: 'us' },
    { key: 'settings.theme', value: 'night' },
    { key: 'plan.pool.volumeLitres', value: 40_000 },
    { key: 'plan.targets.ph.low', value: 7.3 },
  ];
  const valueOf = (key: string) => keptChoices().find((choice) => choice.key === key)?.value;

  it('changes nothing by looking, and without consent only fills in what is blank', async () => {
    putChoices(mine);
    const before = storage.all();
    const looked = await preview(theirs);
    expect(storage.all()).toEqual(before);
    expect(looked.preview.plan.choices).toMatchObject({ add: [theirs[1], theirs[3]], same: 0 });
    expect(await applyImport(looked.logbook, looked.preview, looked.desk)).toBe(true);
    expect(valueOf('settings.units')).toBe('metric');
    expect(valueOf('plan.pool.volumeLitres')).toBe(28_500);
    expect(valueOf('settings.theme')).toBe('night');
    expect(valueOf('plan.targets.ph.low')).toBe(7.3);
  });

  it('puts the file’s in place of what is here where that was asked for, and back again', async () => {
    putChoices(mine);
    const before = keptChoices();
    const { logbook, desk, preview: looked } = await preview(theirs);
    await applyImport(logbook, looked, desk, new Set(['plan', 'settings']));
    expect(sorted(keptChoices())).toEqual(sorted(theirs));
    const again = await preview(theirs, logbook);
    expect(isIdle(again.preview.plan)).toBe(true);
    putChoices([{ key: 'settings.theme', value: 'paper' }]);
    // The theme was chosen anew, so it stays.
    expect(await takeBack(logbook, (await latest(logbook))!, desk)).toBe(1);
    expect(sorted(keptChoices())).toEqual(sorted([...before, { key: 'settings.theme', value: 'paper' }]));
  });

  it('carries what was told of each bottle, its basis, its day and its price, to another device and back', async () => {
    const shelf: Choice = {
      key: 'plan.shelf',
      value: { 'sodium-hypochlorite': '12.5', 'household-bleach': '' },
    };
    const bottles: Choice = {
      key: 'plan.bottles',
      value: {
        'sodium-hypochlorite': {
          basis: 'by-weight',
          made: '2026-04-30',
          price: '2,40',
        },
        'household-bleach': { price: '1.10' },
      },
    };
    putChoices([shelf, bottles]);
    const file = keptChoices();
    expect(sorted(file)).toEqual(sorted([shelf, bottles]));
    // The other device has a shelf of its own, and gives way only where asked.
    storage = new Storage();
    vi.stubGlobal('localStorage', storage);
    const other: Choice = {
      key: 'plan.bottles',
      value: { 'household-bleach': { price: '1.30' } },
    };
    putChoices([other]);
    const { logbook, desk, preview: looked } = await preview(file);
    expect(looked.plan.choices).toMatchObject({
      add: [shelf],
      replace: [{ before: other, after: bottles }],
    });
    await applyImport(logbook, looked, desk, new Set(['plan']));
    expect(sorted(keptChoices())).toEqual(sorted([shelf, bottles]));
    expect(await takeBack(logbook, (await latest(logbook))!, desk)).toBe(0);
    expect(keptChoices()).toEqual([other]);
  });

  it('writes nothing down where all that differs was left as it is', async () => {
    putChoices(mine);
    const { logbook, desk, preview: looked } = await preview([{ key: 'settings.units', value: 'us' }]);
    const imports = await logbook.store.count('imports');
    expect(await applyImport(logbook, looked, desk)).toBe(false);
    expect(await logbook.store.count('imports')).toBe(imports);
  });

  it('leaves out an unsound choice and says which', async () => {
    const file = (await fileOf(theirs)).replace('"us"', '"furlongs"');
    const result = await previewText(await openedLogbook(), 'file.json', file);
    expect(result).toMatchObject({ ok: true, preview: { problems: [{ where: { what: 'choice', at: 1 } }] } });
  });
});

async function latest(logbook: Logbook) {
  const records = await logbook.store.all('imports');
  return records.sort((a, b) => (a.time < b.time ? 1 : -1))[0];
}
