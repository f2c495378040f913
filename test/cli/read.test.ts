import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';

function read(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, ['src/cli/read.ts', ...args], { encoding: 'utf8' });
  const lines = stdout.split('\n').filter((line) => line !== '');
  return { status, stderr, lines: lines.map((line) => JSON.parse(line) as Record<string, unknown>) };
}

const folder = mkdtempSync(join(tmpdir(), 'dipwise-read-'));

describe('the read command', () => {
  it('prints one object a line, in the order asked, refused or read', () => {
    const notAPhoto = join(folder, 'notes.txt');
    writeFileSync(notAPhoto, 'not a photo');
    const { status, lines } = read(
      '--scale',
      'practice-four',
      'sample-images/overcast-deck.jpg',
      notAPhoto,
      join(folder, 'missing.jpg'),
      'sample-images/refused/no-card.jpg',
    );
    expect(status).toBe(1);
    expect(lines.map(({ photo, outcome }) => [photo, outcome])).toEqual([
      ['overcast-deck.jpg', 'read'],
      ['notes.txt', 'refused'],
      ['missing.jpg', 'refused'],
      ['no-card.jpg', 'refused'],
    ]);
    expect(lines.map(({ path }) => path)).toEqual([
      'sample-images/overcast-deck.jpg',
      notAPhoto,
      join(folder, 'missing.jpg'),
      'sample-images/refused/no-card.jpg',
    ]);
    expect(lines[0]).toMatchObject({
      reasons: [],
      correction: 'neutrals',
      pads: [
        { parameter: 'total-alkalinity', unit: 'mg/L', offScale: null },
        { parameter: 'free-chlorine', unit: 'mg/L', offScale: null },
        { parameter: 'total-hardness', unit: 'mg/L', offScale: null },
        { parameter: 'ph', unit: 'pH', offScale: null },
      ],
      millis: { decode: expect.any(Number), find: expect.any(Number), read: expect.any(Number) },
    });
    for (const pad of lines[0]!['pads'] as { value: number; low: number; high: number; deltaE: number }[]) {
      expect(pad.low).toBeLessThanOrEqual(pad.value);
      expect(pad.high).toBeGreaterThanOrEqual(pad.value);
      expect(pad.deltaE).toBeGreaterThanOrEqual(0);
    }
    expect(lines[1]).toMatchObject({ reasons: [{ code: 'not-an-image' }], pads: [] });
    expect(lines[3]).toMatchObject({ reasons: [{ code: 'no-card', message: expect.stringContaining('corner') }] });
  });

  it('says in a last line what photos of one strip tell together', () => {
    const photo = 'sample-images/overcast-deck.jpg';
    const { status, lines } = read('--scale', 'practice-four', '--together', photo, photo);
    expect(status).toBe(0);
    expect(lines).toHaveLength(3);
    expect(lines[2]).toMatchObject({ together: 2, correction: 'neutrals' });
    const widths = (line: Record<string, unknown>) =>
      (line['pads'] as { low: number; high: number }[]).map(({ low, high }) => high - low);
    const [one, both] = [widths(lines[0]!), widths(lines[2]!)];
    both.forEach((width, i) => expect(width).toBeLessThanOrEqual(1.01 * one[i]!));
    expect(both.some((width, i) => width < 0.98 * one[i]!)).toBe(true);
  });

  it('asks which of two cards is meant, and reads the one that is named', { tags: 'release' }, async () => {
    const halves = ['sample-images/overcast-deck.jpg', 'sample-images/held-upright.jpg'];
    const photo = join(folder, 'two.jpg');
    const [left, right] = await Promise.all(
      halves.map((file) => sharp(file).autoOrient().resize({ height: 1500 }).toBuffer({ resolveWithObject: true })),
    );
    const width = left!.info.width + right!.info.width;
    await sharp({ create: { width, height: 1500, channels: 3, background: '#777' } })
      .composite([
        { input: left!.data, left: 0, top: 0 },
        { input: right!.data, left: left!.info.width, top: 0 },
      ])
      .jpeg({ quality: 95 })
      .toFile(photo);
    const asked = read('--scale', 'practice-four', photo).lines[0] as {
      outcome: string;
      reasons: { code: string }[];
      cards: [number, number][][];
    };
    expect(asked).toMatchObject({ outcome: 'refused', reasons: [{ code: 'two-cards' }] });
    expect(asked.cards.map((corners) => corners.every(([x]) => x < left!.info.width / width))).toEqual([true, false]);
    const phOf = (args: string[]) => {
      const [line] = read(...args).lines as { outcome: string; pads: { parameter: string; value: number }[] }[];
      return line!.outcome === 'read' ? line!.pads.find(({ parameter }) => parameter === 'ph')!.value : line!.outcome;
    };
    // What the photos were simulated with: sample-images/truth.json.
    expect(phOf(['--scale', 'practice-four', '--card', '1', photo])).toBeCloseTo(7.7, 0);
    expect(phOf(['--scale', 'practice-five', '--card', '2', photo])).toBeCloseTo(7.3, 0);
    expect(phOf(['--scale', 'practice-five', '--card', '3', photo])).toBe('refused');
    expect(read('--card', 'left', photo)).toMatchObject({ status: 2, stderr: expect.stringContaining("not 'left'") });
  });

  it('reads with a scale from a file', () => {
    const file = join(folder, 'scale.json');
    const scale = JSON.parse(readFileSync('src/content/scales/practice-five.json', 'utf8')) as {
      pads: { parameter: string }[];
    };
    // Some editors put a byte-order mark in front.
    writeFileSync(file, `\uFEFF${JSON.stringify(scale)}`);
    const { lines, status } = read('--scale', file, 'sample-images/late-evening-stone.jpg');
    expect(status).toBe(0);
    const pads = lines[0]!['pads'] as { parameter: string }[];
    expect(pads.map(({ parameter }) => parameter)).toEqual(scale.pads.map(({ parameter }) => parameter));
  });

  it('says when the photo was taken outside the reading window', () => {
    const codesAt = (...time: readonly string[]) => {
      const { lines } = read('--scale', 'practice-four', ...time, 'sample-images/overcast-deck.jpg');
      return (lines[0]!['warnings'] as { code: string; message: string }[]).map(({ code }) => code);
    };
    expect(codesAt('--seconds-since-dip', '30')).toEqual([]);
    expect(codesAt('--seconds-since-dip', '3600')).toEqual(['read-late']);
  });

  it.each([
    [[], 'name at least one photo'],
    [['--seconds-since-dip', 'soon', 'a.jpg'], 'the seconds from the end of the dip'],
    [['--seconds-since-dip=-5', 'a.jpg'], 'the seconds from the end of the dip'],
    [['--scale', 'nobody-has-this', 'a.jpg'], 'there is no scale'],
    [['--frobnicate', 'a.jpg'], 'frobnicate'],
  ])('says what is wrong with %j and ends with 2', (args, sentence) => {
    const { status, stderr, lines } = read(...args);
    expect(status).toBe(2);
    expect(stderr).toContain(sentence);
    expect(stderr).toContain('Usage:');
    expect(lines).toEqual([]);
  });

  it('says where a scale file is wrong', () => {
    const file = join(folder, 'broken.json');
    const scale = JSON.parse(readFileSync('src/content/scales/practice-four.json', 'utf8')) as { white: string };
    writeFileSync(file, JSON.stringify({ ...scale, white: 'D50' }));
    const { status, stderr } = read('--scale', file, 'a.jpg');
    expect(status).toBe(2);
    expect(stderr).toContain("white: white must be 'D65': convert the colours first");
  });
});
