import { spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeLogJson } from '../../src/core/log/write-json.ts';
import { loggedValue, POOL, reading } from '../core/log/samples.ts';

function run(...args: string[]) {
  return spawnSync(process.execPath, ['src/cli/now.ts', ...args], { encoding: 'utf8' });
}

const folder = mkdtempSync(join(tmpdir(), 'now-'));
const file = join(folder, 'log.json');
const strips = [0, 5, 10, 15, 20].map((day, i) =>
  reading(day, [
    loggedValue('total-alkalinity', 100 + 6 * (i % 2), 20),
    loggedValue('free-chlorine', 3, 0.8),
    loggedValue('ph', 7.5, 0.25),
  ]),
);
const data = { pools: [POOL], entries: strips, scales: [], choices: [] };
let text = '';
for await (const piece of writeLogJson(data, [], '2026-07-01T00:00:00.000Z', '')) text += piece;
writeFileSync(file, text);

describe('the now command', () => {
  it('tells what the water is, from all its readings', () => {
    const { stdout, status } = run(file, '--at', '2026-06-22T12:00Z');
    expect(status).toBe(0);
    const now = JSON.parse(stdout) as {
      quantities: { quantity: string; value: number; low: number; high: number }[];
      nextTest: { time: string };
    };
    expect(Object.keys(now)).toEqual(['pool', 'at', 'quantities', 'learnt', 'oddities', 'nextTest']);
    // The same as the logbook's page and calendar say.
    expect(now.nextTest.time <= '2026-06-24T07:00:00.000Z').toBe(true);
    expect(now.quantities.map(({ quantity }) => quantity)).toEqual(['free-chlorine', 'ph', 'total-alkalinity']);
    const alkalinity = now.quantities[2]!;
    expect(alkalinity).toMatchObject({ unit: 'mg/L', readings: 5, additions: 0, lastReading: { value: 100, low: 80 } });
    // About as wide as the last strip's 40, a day and a half later: readings that scatter so little may all be off alike.
    expect(alkalinity.high - alkalinity.low).toBeLessThan(41);
    expect(alkalinity.value).toBeGreaterThan(90);
    expect(alkalinity.value).toBeLessThan(115);
  });

  it('counts nothing that came later', () => {
    const { stdout } = run(file, '--at', '2026-06-02');
    const { quantities } = JSON.parse(stdout) as { quantities: { readings: number }[] };
    expect(quantities.every(({ readings }) => readings === 1)).toBe(true);
  });

  it('reads a logbook that its pictures make large', () => {
    const large = join(folder, 'large.json');
    writeFileSync(large, `${' '.repeat(25_000_000)}${text}`);
    expect(run(large, '--at', '2026-06-22T12:00Z').status).toBe(0);
  });

  it('says what to do where it can’t', () => {
    const other = join(folder, 'other.json');
    writeFileSync(other, '{"a": 1}');
    for (const [args, words] of [
      [[], /Name one file/],
      [[join(folder, 'none.json')], /can't be opened/],
      [[other], /no logbook that can be read/],
      [[file, '--at', 'yesterday'], /--at takes a date/],
    ] as const) {
      const { stderr, status } = run(...args);
      expect(stderr).toMatch(words);
      expect(status).toBe(2);
    }
    const before = run(file, '--at', '2020-01-01');
    expect(before.status).toBe(1);
    expect(before.stderr).toMatch(/no reading before/);
  });
});
