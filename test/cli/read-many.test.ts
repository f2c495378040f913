/** Many photos at once: folders and patterns, several threads, a table, a report, and how far it has come. */
import { parse } from 'csv-parse/sync';
import { HtmlValidate } from 'html-validate';
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inOrder } from '../../src/cli/read/in-order.ts';
import { photosNamed } from '../../src/cli/read/photos-named.ts';
import { Progress } from '../../src/cli/read/progress.ts';

const folder = mkdtempSync(join(tmpdir(), 'dipwise-many-'));
const photos = join(folder, 'photos');
mkdirSync(join(photos, 'deeper'), { recursive: true });
mkdirSync(join(folder, 'empty'));
// A spreadsheet would take the name for a formula, a page for markup.
const ODD = '=SUM(A1)&<b>10.jpg';
cpSync('sample-images/overcast-deck.jpg', join(photos, ODD));
cpSync('sample-images/overcast-deck.jpg', join(photos, 'deeper', 'deck.jpg'));
writeFileSync(join(photos, 'photo-10.jpg'), readFileSync('sample-images/overcast-deck.jpg').subarray(0, 60_000));
cpSync('sample-images/refused/no-card.jpg', join(photos, 'photo-2.jpg'));
writeFileSync(join(photos, 'notes.txt'), 'not a photo');

function read(...args: string[]) {
  return spawnSync(process.execPath, ['src/cli/read.ts', '--scale', 'practice-four', ...args], { encoding: 'utf8' });
}

describe('what is named on the command line', () => {
  it('is taken in order: a folder with those below it, a pattern, and what names nothing', async () => {
    const inFolder = [ODD, 'deeper/deck.jpg', 'photo-2.jpg', 'photo-10.jpg'].map((name) => join(photos, name));
    const pattern = join(photos, '**', '*-*.jpg');
    const missing = join(folder, 'none', '*.jpg');
    const empty = join(folder, 'empty');
    const all = await photosNamed([photos, pattern, missing, empty, join(photos, 'notes.txt')]);
    expect([...all.slice(0, 4)].sort()).toEqual([...inFolder].sort());
    // By number, not by letter.
    expect(all.indexOf(inFolder[2]!)).toBeLessThan(all.indexOf(inFolder[3]!));
    expect(all.slice(4)).toEqual([inFolder[2], inFolder[3], missing, empty, join(photos, 'notes.txt')]);
  });

  it('is a file where there is one, whatever its name would match', async () => {
    const file = join(folder, 'pool[1].jpg');
    writeFileSync(file, '');
    expect(await photosNamed([file])).toEqual([file]);
  });
});

describe('answers in order', () => {
  it('come in the order of the questions, never too many ahead', async () => {
    let [asked, answered, widest] = [0, 0, 0];
    const settle: (() => void)[] = [];
    const ask = async (item: number) => {
      asked += 1;
      widest = Math.max(widest, asked - answered);
      await new Promise<void>((resolve) => settle.push(resolve));
      return item * 2;
    };
    const answers: number[] = [];
    const all = (async () => {
      for await (const answer of inOrder(
        Array.from({ length: 9 }, (_, i) => i),
        4,
        ask,
      )) {
        answered += 1;
        answers.push(answer);
      }
    })();
    // The latest first, as where the first photo is a slow one.
    while (answered < 9) {
      settle.pop()?.();
      await new Promise((resolve) => setImmediate(resolve));
    }
    await all;
    expect(answers).toEqual([0, 2, 4, 6, 8, 10, 12, 14, 16]);
    expect(widest).toBe(4);
  });

  it('that fail are told in their turn', async () => {
    const ask = (item: number) => (item === 1 ? Promise.reject(new Error('broken')) : Promise.resolve(item));
    const seen: number[] = [];
    const all = (async () => {
      for await (const answer of inOrder([0, 1, 2], 3, ask)) seen.push(answer);
    })();
    await expect(all).rejects.toThrow('broken');
    expect(seen).toEqual([0]);
  });
});

describe('progress', () => {
  function shownOn(terminal: { isTTY?: boolean; columns?: number }, total = 1200) {
    let text = '';
    const progress = new Progress({ ...terminal, write: (part: string) => (text += part) }, total);
    for (const outcome of ['read', 'refused'] as const) {
      progress.clear();
      progress.tell(outcome === 'read' ? 1 : 2, outcome);
    }
    return text;
  }

  it('stands on one line of a terminal', () => {
    const text = shownOn({ isTTY: true, columns: 80 });
    expect(text).toMatch(/2 of 1,200 photos, 1 refused, about \d+ (s|min) left$/);
    expect(text).not.toContain('\n');
  });

  it('never wraps, and is left out in a pipe and for one photo', () => {
    expect(shownOn({ isTTY: true, columns: 12 }).split('\u001b[2K').at(-1)).toBe('2 of 1,200 ');
    expect(shownOn({})).toBe('');
    expect(shownOn({ isTTY: true }, 1)).toBe('');
  });
});

describe('the read command with many photos', () => {
  const report = join(folder, 'report');
  const run = read('--jobs', '2', '--format', 'csv', '--report', report, photos, join(folder, 'empty'));
  // Papa Parse and csv-parse take it alike: RFC 4180.
  const rows = parse(run.stdout, { columns: true }) as Record<string, string>[];
  const page = readFileSync(join(report, 'readings.html'), 'utf8');

  it('goes on after a bad file, says nothing in a pipe, and ends with 1', () => {
    expect([run.status, run.stderr]).toEqual([1, '']);
    expect([...new Set(rows.map(({ path }) => path))]).toHaveLength(5);
    const codes = (part: string) => rows.find(({ path }) => path!.includes(part))!['codes'];
    expect([codes('photo-10'), codes('photo-2'), codes('empty')]).toEqual(['damaged', 'no-card', 'no-photos']);
  });

  it('writes a table with a row for every value, safe for a spreadsheet', () => {
    const values = rows.filter(({ outcome }) => outcome === 'read');
    expect(values).toHaveLength(8);
    expect(values.filter(({ parameter }) => parameter === 'ph').map(({ value }) => Number(value))).toEqual([
      // sample-images/truth.json: 7.7, read to within half a block.
      expect.closeTo(7.7, 0),
      expect.closeTo(7.7, 0),
    ]);
    for (const { low, value, high } of values) {
      expect(Number(low)).toBeLessThanOrEqual(Number(value));
      expect(Number(high)).toBeGreaterThanOrEqual(Number(value));
    }
    expect(rows.some(({ photo }) => photo === `'${ODD}`)).toBe(true);
    expect(rows.some(({ photo }) => photo!.startsWith('='))).toBe(false);
  });

  it('gives the same as one photo after the other, as lines', () => {
    const { stdout, status } = read('--jobs', '1', photos);
    const lines = stdout.trimEnd().split('\n');
    const answers = lines.map((line) => JSON.parse(line) as { path: string; pads: { value: number }[] });
    expect(status).toBe(1);
    expect([...new Set(rows.map(({ path }) => path!.replace(/^'/, '')))].slice(0, 4)).toEqual(
      answers.map(({ path }) => path),
    );
    expect(answers.flatMap(({ pads }) => pads.map(({ value }) => value))).toEqual(
      rows.filter(({ outcome }) => outcome === 'read').map(({ value }) => Number(value)),
    );
  });

  it('writes a report that is one valid page by itself', async () => {
    expect(readdirSync(report)).toEqual(['readings.html']);
    expect(page.match(/<img src="data:image\/jpeg;base64,/g)).toHaveLength(2);
    expect(page.replace(/data:image[^"]*/g, '')).not.toMatch(/(src|href)="(?!#|")|url\(|<script/);
    expect(page).toContain('2 of 5 photos were read.');
    expect(page).toContain('=SUM(A1)&amp;&lt;b&gt;10.jpg');
    expect(page).not.toContain('<b>10.jpg');
    const { valid, results } = await new HtmlValidate({
      extends: ['html-validate:standard'],
      rules: { 'no-inline-style': 'off' },
    }).validateString(page.replace(/data:image[^"]*/g, 'data:,'));
    expect(results.flatMap(({ messages }) => messages.map(({ message, line }) => `${line}: ${message}`))).toEqual([]);
    expect(valid).toBe(true);
  });

  it.each([
    [['--jobs', '0', 'a.jpg'], '1 to 64'],
    [['--format', 'xml', 'a.jpg'], "json or csv, not 'xml'"],
    [['--report', join(photos, 'notes.txt'), 'a.jpg'], "Can't write to"],
  ])('says what is wrong with %j and ends with 2', (args, sentence) => {
    const { status, stderr, stdout } = read(...args);
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toContain(sentence);
  });
});

describe('the package of the commands', () => {
  it('runs by name where Node strips no types: under node_modules', { tags: 'release', timeout: 120_000 }, () => {
    expect(spawnSync(process.execPath, ['src/cli/pack.mjs'], { encoding: 'utf8' }).stderr).toBe('');
    const { bin, dependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      bin: { dipwise: string };
      dependencies: Record<string, string>;
    };
    const modules = join(folder, 'installed', 'node_modules');
    cpSync('.commands', join(modules, 'dipwise', '.commands'), { recursive: true });
    cpSync('package.json', join(modules, 'dipwise', 'package.json'));
    // Nothing but what the package asks for.
    for (const name of Object.keys(dependencies)) {
      mkdirSync(join(modules, name, '..'), { recursive: true });
      symlinkSync(join(process.cwd(), 'node_modules', name), join(modules, name));
    }
    const dipwise = (...args: string[]) =>
      spawnSync(process.execPath, [join(modules, 'dipwise', bin.dipwise), ...args], { encoding: 'utf8', input: '' });
    const answered = dipwise(
      'read',
      '--jobs',
      '2',
      '--scale',
      'practice-four',
      join(photos, 'deeper'),
      join(photos, ODD),
    );
    expect([answered.status, answered.stderr]).toEqual([0, '']);
    expect(answered.stdout.match(/"outcome":"read"/g)).toHaveLength(2);
    expect(dipwise('card', '--out', join(folder, 'card')).status).toBe(0);
    expect(existsSync(join(folder, 'card', 'card-a4.pdf'))).toBe(true);
    for (const command of ['teach', 'read', 'nothing', 'card']) expect(dipwise(command).status).toBe(2);
    expect(dipwise('read').stderr).toContain('Usage: dipwise read');
    for (const command of ['water', 'plan', 'now']) expect(dipwise(command, '--help').status).toBe(0);
  });
});
