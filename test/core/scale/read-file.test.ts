import { describe, expect, it } from 'vitest';
import { MAX_BYTES, readScaleFile, scaleFileText } from '../../../src/core/scale/read-file.ts';
import { faultLine } from '../../../src/words/faults.ts';
import { plainScale } from './fixtures.ts';

const issues = (text: string) => {
  const read = readScaleFile(text);
  return read.ok ? [] : read.issues.map(faultLine);
};

describe('a scale file', () => {
  it('comes back as it was saved, but never as a practice scale', () => {
    expect(readScaleFile(scaleFileText(plainScale()))).toEqual({
      ok: true,
      scale: { ...plainScale(), origin: 'taught' },
    });
    expect(readScaleFile(`\uFEFF${scaleFileText(plainScale())}`).ok).toBe(true);
  });

  it('says what is wrong, and where', () => {
    const scale = plainScale();
    expect(issues(scaleFileText({ ...scale, name: ' ' }))).toEqual([
      'name: the scale needs a name, of at most 120 letters',
    ]);
    const pads = [{ ...scale.pads[0], parameter: 'iron' }, scale.pads[1]];
    expect(issues(scaleFileText({ ...scale, pads }))[0]).toMatch(
      /^pad 1, parameter: what a pad measures must be one of/,
    );
    expect(issues('{"format":"something"}')[0]).toMatch(/isn’t a strip scale/);
    expect(issues('<html>')).toEqual(['the file is not JSON: choose a file that was saved from the scales page']);
    expect(issues(' '.repeat(MAX_BYTES + 1))).toEqual(['the file is larger than any scale']);
    expect(readScaleFile(scaleFileText(plainScale()).padEnd(MAX_BYTES)).ok).toBe(true);
  });
});

describe('a hostile file is refused in a sentence', () => {
  it.each([
    ['empty', ''],
    ['not JSON', '<html><script>alert(1)</script>'],
    ['a number', '7'],
    ['null', 'null'],
    ['too large', ' '.repeat(MAX_BYTES + 1)],
    ['nested without end', '['.repeat(200_000)],
    ['nested deeply', '['.repeat(50_000) + ']'.repeat(50_000)],
    ['a million blocks short', JSON.stringify({ ...plainScale(), pads: new Array(5000).fill({}) })],
  ])('%s', (_name, text) => {
    expect(issues(text).length).toBeGreaterThan(0);
  });

  it('markup in a name stays text, and what the schema does not know is dropped', () => {
    const read = readScaleFile(
      scaleFileText({ ...plainScale(), name: '<img src=x onerror=alert(1)>', onload: 'alert(1)', constructor: 1 }),
    );
    expect(read).toMatchObject({ ok: true, scale: { name: '<img src=x onerror=alert(1)>' } });
    expect(read.ok && Object.keys(read.scale)).not.toContain('onload');
  });

  it('can’t reach the prototype of anything', () => {
    const text = scaleFileText(plainScale()).replace('{', '{"__proto__": {"polluted": true},');
    readScaleFile(text);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
    const teaching = { cardVersion: 1, light: '', neutrals: {}, anchors: {} };
    const withTeaching = JSON.stringify({ ...plainScale(), teachings: [teaching] }).replace(
      '"neutrals":{}',
      '"neutrals":{"__proto__":[1,1,1]}',
    );
    readScaleFile(withTeaching);
    expect(({} as Record<string, unknown>)['0']).toBeUndefined();
  });
});
