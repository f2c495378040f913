import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FilePicture } from '../../../src/core/log/incoming.ts';
import { readLogJson } from '../../../src/core/log/read-json.ts';
import { LOG_VERSION } from '../../../src/core/log/schema.ts';
import { writeLogJson } from '../../../src/core/log/write-json.ts';
import type { StripScale } from '../../../src/core/scale/schema.ts';
import { choices, id, log } from './arbitrary.ts';

const VERSIONS = new URL('versions/', import.meta.url);
const read = (name: string) => readFileSync(new URL(name, VERSIONS), 'utf8');

async function written(data: Parameters<typeof writeLogJson>[0], pictures: readonly FilePicture[]): Promise<string> {
  const parts: string[] = [];
  for await (const part of writeLogJson(data, pictures, '2026-07-01T00:00:00.000Z', 'Everything.')) parts.push(part);
  return parts.join('');
}

const scale: StripScale = {
  format: 'dipwise-scale',
  version: 1,
  id: 'my-strips',
  name: 'The strips in the shed',
  origin: 'taught',
  white: 'D65',
  strip: { lengthMm: 80, widthMm: 6 },
  pads: [
    {
      parameter: 'ph',
      unit: 'pH',
      centreMm: 10,
      widthMm: 5,
      heightMm: 5,
      blocks: [
        { value: 6.8, lab: [70, 10, 50] },
        { value: 7.8, lab: [60, 40, 30] },
      ],
    },
  ],
  dipSeconds: 1,
  readAfterSeconds: 15,
  readBeforeSeconds: 60,
  teachings: [],
};

const pictures = fc.uniqueArray(
  fc.record({
    id,
    base64: fc
      .uint8Array({ maxLength: 40 })
      .map((bytes) => Buffer.from([0xff, 0xd8, 0xff, ...bytes]).toString('base64')),
  }),
  { maxLength: 3, selector: (picture) => picture.id },
);

describe('the JSON file of everything', () => {
  it('loses nothing on the way out and in, pictures, scales, settings and the plan’s form included', async () => {
    await fc.assert(
      fc.asyncProperty(log, pictures, choices, async (data, shots, chosen) => {
        const back = readLogJson(await written({ ...data, scales: [scale], choices: chosen }, shots));
        expect(back).toEqual({
          ok: true,
          problems: [],
          incoming: { ...data, scales: [scale], pictures: shots, choices: chosen },
        });
      }),
      { seed: 8, numRuns: 200 },
    );
  });

  it('says what it holds', async () => {
    const file = JSON.parse(await written({ pools: [], entries: [], scales: [], choices: [] }, [])) as Record<
      string,
      unknown
    >;
    expect(file).toMatchObject({ format: 'dipwise-logbook', version: LOG_VERSION, about: 'Everything.' });
  });
});

describe('data versions', () => {
  it('has a file of every version up to the present one', () => {
    const files = Array.from({ length: LOG_VERSION }, (_, i) => `v${i + 1}.json`);
    expect(readdirSync(VERSIONS).sort()).toEqual(files);
  });

  it.each(readdirSync(VERSIONS))('opens %s with nothing lost', (file) => {
    const back = readLogJson(read(file));
    if (!back.ok) throw new Error(back.failure);
    const original = JSON.parse(read(file)) as Record<'pools' | 'entries' | 'pictures', unknown[]>;
    expect(back.problems).toEqual([]);
    expect(back.incoming.pools).toHaveLength(original.pools.length);
    expect(back.incoming.entries).toHaveLength(original.entries.length);
    expect(back.incoming.pictures).toHaveLength(original.pictures.length);
    expect(back.incoming.entries[0]).toMatchObject({
      note: 'After the rain',
      values: [
        { quantity: 'free-chlorine', value: 1.5, low: 1, high: 2.2, method: 'photo' },
        { quantity: 'ph', value: 7.5 },
        { quantity: 'temperature', value: 19.5 },
      ],
      unmatched: ['ph'],
    });
    expect(back.incoming.entries.find(({ kind }) => kind === 'addition')).toMatchObject({ amount: 350, unit: 'mL' });
  });

  it('takes the climate of a place along in the present version', () => {
    const details = { 'pool.climate.jun.airC': -3.5, 'pool.climate.jun.rainMm': 60 };
    const file = JSON.parse(read('v7.json')) as { pools: { details: object }[] };
    file.pools[0]!.details = details;
    const back = readLogJson(JSON.stringify(file));
    if (!back.ok) throw new Error(back.failure);
    expect(back.problems).toEqual([]);
    expect(back.incoming.pools[0]!.details).toEqual(details);
  });

  it('refuses what a later program wrote, and what no program wrote', () => {
    const at = (version: unknown) => JSON.stringify({ format: 'dipwise-logbook', version });
    expect(readLogJson(at(LOG_VERSION + 1))).toEqual({ ok: false, failure: 'newer-version' });
    for (const version of [0, -1, 1.5, '2', null]) {
      expect(readLogJson(at(version))).toEqual({ ok: false, failure: 'other-version' });
    }
  });

  it.each(['', 'null', '[]', '{}', '"x"', '{"format":"other","version":1}', '{"format":'])('refuses %j', (file) => {
    expect(readLogJson(file).ok).toBe(false);
  });
});

describe('hostile files', () => {
  it('brings no foreign keys and no prototypes along', () => {
    const file = read('v4.json').replace(
      '"note": "Cover off"',
      '"note": "Cover off", "__proto__": {"admin": true}, "extra": 1',
    );
    const back = readLogJson(file);
    if (!back.ok) throw new Error(back.failure);
    const note = back.incoming.entries.at(-1)!;
    expect(Object.keys(note)).not.toContain('extra');
    expect((note as unknown as Record<string, unknown>)['admin']).toBeUndefined();
    expect(({} as Record<string, unknown>)['admin']).toBeUndefined();
  });

  it('takes only JPEG pictures', () => {
    const svg = Buffer.from('<svg onload="alert(1)"/>').toString('base64');
    for (const [type, base64] of [
      ['image/svg+xml', svg],
      ['image/jpeg', svg],
      ['image/jpeg', '/9j/<script>'],
    ]) {
      const back = readLogJson(
        JSON.stringify({ format: 'dipwise-logbook', version: 3, pictures: [{ id: 'abcd-1', type, base64 }] }),
      );
      expect(back).toMatchObject({
        ok: true,
        incoming: { pictures: [] },
        problems: [{ where: { what: 'picture', at: 1 } }],
      });
    }
  });
});
