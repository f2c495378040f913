import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'dipwise-card-'));
const run = (...args: string[]) => spawnSync(process.execPath, ['src/cli/card.ts', ...args], { encoding: 'utf8' });

afterAll(() => {
  rmSync(folder, { recursive: true });
});

describe('the card command', () => {
  let outcome: ReturnType<typeof run>;
  const out = join(folder, 'a', 'b');

  beforeAll(() => {
    outcome = run('--out', out, '--mark', 'a3f');
  });

  it('writes both cards and names the files', () => {
    const expected = ['card', 'card-black'].flatMap((name) =>
      ['-a4.pdf', '-letter.pdf', '.svg', '.png', '.json'].map((end) => `${name}${end}`),
    );
    expect(outcome.stderr).toBe('');
    expect(outcome.status).toBe(0);
    expect(readdirSync(out).sort()).toEqual([...expected].sort());
    expect(outcome.stdout.trim().split('\n')).toEqual(expected.map((name) => join(out, name)));
  });

  it.each([
    ['card', 18],
    ['card-black', 0],
  ])('describes %s as the contract says', async (name, anchors) => {
    const card = JSON.parse(readFileSync(join(out, `${name}.json`), 'utf8'));
    const rect = ['id', 'xMm', 'yMm', 'widthMm', 'heightMm'];
    expect(Object.keys(card)).toEqual([
      'version',
      'printMark',
      'widthMm',
      'heightMm',
      'pxPerMm',
      'slot',
      'fiducials',
      'neutrals',
      'anchors',
    ]);
    expect(card).toMatchObject({ version: 2, printMark: 0xa3f, widthMm: 148, heightMm: 105, pxPerMm: 20 });
    expect(Object.keys(card.slot)).toEqual(rect.slice(1));
    expect([card.fiducials.length, card.neutrals.length, card.anchors.length]).toEqual([4, 16, anchors]);
    for (const item of [...card.fiducials, ...card.anchors]) expect(Object.keys(item)).toEqual(rect);
    for (const item of card.neutrals) expect(Object.keys(item)).toEqual([...rect, 'ink']);

    const { data, info } = await sharp(join(out, `${name}.png`))
      .raw()
      .toBuffer({ resolveWithObject: true });
    for (const { xMm, yMm, widthMm, heightMm, ink } of card.neutrals) {
      const x = Math.floor((xMm + widthMm / 2) * card.pxPerMm);
      const y = Math.floor((yMm + heightMm / 2) * card.pxPerMm);
      expect(data[(y * info.width + x) * info.channels]).toBe(Math.round(255 * (1 - ink)));
    }
  });

  it('writes an SVG of the card’s true size that holds no font names', () => {
    const svg = readFileSync(join(out, 'card.svg'), 'utf8');
    expect(svg).toMatch(/^<svg [^>]*width="148mm" height="105mm" viewBox="0 0 148 105"/);
    expect(svg).not.toMatch(/<text|font-family/);
  });
});

describe('the card command, badly asked', () => {
  const file = join(folder, 'a-file');
  writeFileSync(file, '');

  it.each([
    [[], /--out/],
    [['--out'], /--out/],
    [['--out', ''], /--out/],
    [['--out', folder, '--size', 'a5'], /--size/],
    [['--out', folder, 'more'], /more/],
    [['--out', file], /a-file/],
    [['--out', join(file, 'below')], /a-file/],
    // Node's own way to make folders never comes back from here.
    [['--out', '/proc/nothing/here'], /nothing/],
    [['--out', folder, '--mark', '000'], /001 to FFE/],
    [['--out', folder, '--mark', 'a3f7'], /001 to FFE/],
  ])('%j: says why and ends with 2', (args, reason) => {
    const { status, stdout, stderr } = run(...args);
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(reason);
    expect(stderr).not.toMatch(/\n\s+at /);
  });
});
