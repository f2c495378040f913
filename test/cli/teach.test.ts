import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { parseScale } from '../../src/core/scale/schema.ts';
import { stepOf } from '../pictures/read-samples.ts';

interface Truth {
  strip: {
    name: string;
    dipSeconds: number;
    readAfterSeconds: number;
    readBeforeSeconds: number;
    lengthMm: number;
    widthMm: number;
    pads: { parameter: string }[];
  };
  photos: {
    file: string;
    shows: string;
    light: string;
    rows?: { parameter: string; unit: string; blocks: { value: number; x: number; y: number }[] }[];
    values?: Record<string, number>;
  }[];
}

const truth = JSON.parse(readFileSync('sample-images/charts/truth.json', 'utf8')) as Truth;
const charts = truth.photos.filter(({ shows }) => shows === 'chart');
const reading = truth.photos.find(({ values }) => values)!;
const folder = mkdtempSync(join(tmpdir(), 'dipwise-teach-'));
const { lengthMm, widthMm, pads, ...times } = truth.strip;

function run(script: string, ...args: string[]) {
  return spawnSync(process.execPath, [`src/cli/${script}.ts`, ...args], { encoding: 'utf8' });
}

function blocksFile(name: string, photos: typeof charts): string {
  const file = join(folder, name);
  const strip = { lengthMm, widthMm, pads };
  writeFileSync(
    file,
    JSON.stringify({ ...times, strip, photos: photos.map(({ light, rows }) => ({ light, pads: rows })) }),
  );
  return file;
}

const photoPath = ({ file }: { file: string }) => join('sample-images', file);

describe('the teach command', () => {
  const out = join(folder, 'scale.json');
  let taught: ReturnType<typeof run>;

  beforeAll(() => {
    taught = run('teach', '--blocks', blocksFile('two.json', charts), '--out', out, ...charts.map(photoPath));
  });

  it('writes a good scale with a teaching for each photo', () => {
    expect(taught.stderr).toBe('');
    expect(taught.status).toBe(0);
    const parsed = parseScale(JSON.parse(readFileSync(out, 'utf8')));
    expect(parsed.ok && parsed.scale.teachings.length).toBe(charts.length);
    expect(parsed.ok && parsed.scale.pads.map(({ parameter }) => parameter)).toEqual(pads.map((pad) => pad.parameter));
  });

  it('keeps the colour of the strip’s plastic from a photo of the strip', () => {
    const strip = truth.photos.find(({ shows }) => shows === 'strip')!;
    const withStrip = join(folder, 'with-strip.json');
    const blocks = blocksFile('with-strip-blocks.json', charts.slice(0, 1));
    const args = ['--blocks', blocks, '--out', withStrip, '--strip', photoPath(strip), photoPath(charts[0]!)];
    const made = run('teach', ...args);
    expect(made.stderr).toBe('');
    const { stripBase } = JSON.parse(made.stdout) as { stripBase: [number, number, number] };
    expect(stripBase[0]).toBeGreaterThan(85);
    const parsed = parseScale(JSON.parse(readFileSync(withStrip, 'utf8')));
    expect(parsed.ok && parsed.scale.strip.base).toEqual(stripBase);
    expect(run('teach', ...args.with(5, photoPath(charts[0]!))).stderr).toContain('No strip was found');
  });

  it('adds another photo of the chart to a scale that is there', () => {
    const [first, second] = [join(folder, 'first.json'), join(folder, 'both.json')];
    const one = blocksFile('first-blocks.json', charts.slice(0, 1));
    run('teach', '--blocks', one, '--out', first, photoPath(charts[0]!));
    const other = blocksFile('second-blocks.json', charts.slice(1, 2));
    const added = run('teach', '--add', first, '--blocks', other, '--out', second, photoPath(charts[1]!));
    expect(added.stderr).toBe('');
    const parsed = parseScale(JSON.parse(readFileSync(second, 'utf8')));
    expect(parsed.ok && parsed.scale.teachings.map(({ light }) => light)).toEqual(
      charts.slice(0, 2).map(({ light }) => light),
    );
  });

  it('makes another print known by a strip of known values', () => {
    const known = join(folder, 'known.json');
    const values = Object.entries(reading.values!).map(([name, value]) => `${name}=${value}`);
    const added = run('teach', '--add', out, '--values', values.join(), '--out', known, photoPath(reading));
    expect(added.stderr).toBe('');
    const parsed = parseScale(JSON.parse(readFileSync(known, 'utf8')));
    expect(parsed.ok && parsed.scale.teachings.at(-1)!.doubt).toBeGreaterThan(0);
  });

  it('says what is wrong with known values', () => {
    const add = (values: string) =>
      run('teach', '--add', out, '--values', values, '--out', join(folder, 'no.json'), photoPath(reading));
    expect(add('ph=7.4')).toMatchObject({ status: 2, stderr: expect.stringContaining('give 2 values or more') });
    expect(add('ph=seven').stderr).toContain('ph takes a number on its chart');
    expect(add('lead=3,ph=7').stderr).toContain("no pad 'lead'");
  });

  // The truth is what the simulator was told the water holds; nothing of it reaches the reader.
  it('lets the same card read a later photo of the strip, through its colour patches', () => {
    const line = JSON.parse(run('read', '--scale', out, photoPath(reading)).stdout) as {
      outcome: string;
      correction: string;
      pads: { parameter: string; value: number; low: number; high: number; openBelow: boolean; openAbove: boolean }[];
    };
    expect(line.outcome).toBe('read');
    expect(line.correction).toBe('anchors');
    for (const pad of line.pads) {
      const actual = reading.values![pad.parameter]!;
      const row = charts[0]!.rows!.find(({ parameter }) => parameter === pad.parameter)!;
      const values = row.blocks.map(({ value }) => value);
      expect(Math.abs(stepOf(values, pad.value) - stepOf(values, actual))).toBeLessThan(0.5);
      expect(pad.openBelow || pad.low <= actual).toBe(true);
      expect(pad.openAbove || pad.high >= actual).toBe(true);
    }
  });

  it('falls back to the greys where the photo shows a card without colour patches', () => {
    const { stdout } = run('read', '--scale', out, 'sample-images/black-only-card.jpg');
    const line = JSON.parse(stdout) as { outcome: string; correction: string | null; reasons: { code: string }[] };
    if (line.outcome === 'read') expect(line.correction).toBe('neutrals');
    else expect(line.reasons[0]!.code).toBe('strip-mismatch');
  });

  it.each([
    ['no arguments', [], 'name the blocks file'],
    ['no photo', ['--blocks', blocksFile('one.json', charts.slice(0, 1)), '--out', out], 'name at least one photo'],
    ['a missing blocks file', ['--blocks', 'nowhere.json', '--out', out, 'a.jpg'], "nowhere.json can't be opened"],
    [
      'more photos than described',
      ['--blocks', blocksFile('one.json', charts.slice(0, 1)), '--out', out, 'a.jpg', 'b.jpg'],
      "'photos' describes 1 photos, but 2 were named",
    ],
    [
      'a scale that can’t be written',
      ['--blocks', blocksFile('one.json', charts.slice(0, 1)), '--out', join(folder, 'none', 'a.json'), 'a.jpg'],
      'is not a folder',
    ],
    ['a folder for a scale', ['--blocks', 'nowhere.json', '--out', folder, 'a.jpg'], 'name a file'],
  ])('says what is wrong with %s and ends with 2', (_, args, sentence) => {
    const { status, stderr } = run('teach', ...args);
    expect(status).toBe(2);
    expect(stderr).toContain(sentence);
  });

  it.each([
    ['no card', 'sample-images/refused/no-card.jpg', 'No card was found'],
    ['no file', join(folder, 'nowhere.jpg'), 'could not be read'],
  ])('ends with 1 where a photo of the chart has %s', (_, photo, sentence) => {
    const blocks = blocksFile('one.json', charts.slice(0, 1));
    const { status, stderr } = run('teach', '--blocks', blocks, '--out', join(folder, 'not-written.json'), photo);
    expect(status).toBe(1);
    expect(stderr).toContain(sentence);
    expect(stderr).not.toContain('Usage:');
  });

  it('takes a byte-order mark in front of the blocks', () => {
    const file = blocksFile('marked.json', charts.slice(0, 1));
    writeFileSync(file, `\uFEFF${readFileSync(file, 'utf8')}`);
    const { stderr } = run('teach', '--blocks', file, '--out', out, join(folder, 'nowhere.jpg'));
    expect(stderr).toContain('could not be read');
  });

  it('says where a block lies that is not beside the card', () => {
    const [chart] = structuredClone(charts);
    chart!.rows![0]!.blocks[1]!.x = -50;
    const { status, stderr } = run(
      'teach',
      '--blocks',
      blocksFile('off.json', [chart!]),
      '--out',
      out,
      photoPath(chart!),
    );
    expect(status).toBe(2);
    expect(stderr).toContain('lies outside the photo');
  });
});
