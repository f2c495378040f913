import { describe, expect, it } from 'vitest';
import { ByteReader } from '../../../src/core/photo/byte-source.ts';
import { hugeFactor } from '../../../src/core/photo/huge.ts';
import { judgeFile, sizeFailure } from '../../../src/core/photo/judge-file.ts';
import { bytes, judge, refused, u32 } from './header-bytes.ts';

describe('reading bytes', () => {
  const file = Buffer.from(Array.from({ length: 200_000 }, (_, i) => i % 251));
  const asked: [number, number][] = [];
  const reader = new ByteReader({
    size: file.length,
    read: (from, to) => {
      asked.push([from, to]);
      return Promise.resolve(file.subarray(from, to));
    },
  });

  it('asks for a window at once and answers from it', async () => {
    expect([...(await reader.bytes(0, 3))!]).toEqual([0, 1, 2]);
    expect([...(await reader.bytes(65_534, 2))!]).toEqual([65_534 % 251, 65_535 % 251]);
    expect(asked).toEqual([[0, 65_536]]);
    expect([...(await reader.bytes(65_535, 2))!]).toEqual([65_535 % 251, 65_536 % 251]);
    expect(asked.at(-1)).toEqual([65_535, 131_071]);
    // Before the window.
    expect([...(await reader.bytes(65_534, 1))!]).toEqual([65_534 % 251]);
    // More than a window, and no further than the file.
    expect((await reader.bytes(0, 150_000))?.length).toBe(150_000);
    expect(asked.at(-1)).toEqual([0, 150_000]);
    await reader.bytes(199_990, 10);
    expect(asked.at(-1)).toEqual([199_990, 200_000]);
  });

  it('has nothing beyond either end, but the last and no bytes', async () => {
    expect(await reader.bytes(199_999, 2)).toBeNull();
    expect(await reader.bytes(-1, 2)).toBeNull();
    expect(await reader.bytes(5, -1)).toBeNull();
    expect(await reader.bytes(NaN, 1)).toBeNull();
    expect((await reader.bytes(200_000, 0))?.length).toBe(0);
    expect([...(await reader.tail(2))]).toEqual([199_998 % 251, 199_999 % 251]);
    expect((await reader.tail(300_000)).length).toBe(200_000);
  });

  it('has nothing where the file became shorter meanwhile', async () => {
    const cut = new ByteReader({
      size: 100,
      read: (from, to) => Promise.resolve(file.subarray(from, Math.min(to, 50))),
    });
    expect(await cut.bytes(40, 20)).toBeNull();
    expect((await cut.tail(20)).length).toBe(0);
  });
});

describe('size', () => {
  it.each([
    [7_500, 8_000, null],
    [7_501, 8_000, 'too-many-pixels'],
    [16_384, 3_000, null],
    [16_385, 3_000, 'too-long'],
    [3_000, 16_385, 'too-long'],
    [240, 320, null],
    [239, 320, 'too-small'],
    [320, 239, 'too-small'],
  ] as const)('%d by %d: %j', (width, height, failure) => {
    expect(sizeFailure({ width, height })).toBe(failure);
  });

  it('of the file is more than nothing and at most 200 MB', async () => {
    expect(await judge(bytes())).toEqual(refused('empty'));
    const ofSize = (size: number) => judgeFile({ size, read: () => Promise.resolve(new Uint8Array()) });
    expect(await ofSize(200_000_000)).toEqual(refused('not-an-image'));
    expect(await ofSize(200_000_001)).toEqual(refused('too-heavy'));
  });

  // 30 megapixels are kept: 5000 x 6000. 48 (8000 x 6000) are halved each way to 12; 60 to 15; 121 go by thirds.
  it.each([
    [5000, 6000, 1],
    [5001, 6000, 2],
    [8000, 6000, 2],
    [10_000, 12_000, 2],
    [10_001, 12_000, 3],
    [100, 100, 1],
  ])('%d by %d is made smaller by %d', (width, height, factor) => {
    expect(hugeFactor({ width, height })).toBe(factor);
  });
});

describe('other kinds, by what they begin with', () => {
  // As each format's own specification has it.
  it.each([
    ['GIF', 'GIF89a'],
    ['TIFF, little-endian', 'II*\0'],
    ['TIFF, big-endian', 'MM\0*'],
    ['JPEG XL, bare', '\xff\x0a'],
    ['JPEG XL, boxed', '\0\0\0\x0cJXL \r\n\x87\n'],
    ['JPEG 2000', '\0\0\0\x0cjP  \r\n\x87\n'],
    ['BMP', 'BM'],
    ['icon', '\0\0\x01\0'],
    ['Photoshop', '8BPS'],
    ['PDF', '%PDF-2.0'],
    ['film', '\0\0\0\x18ftypisom\0\0\0\0isomiso2'],
  ])('%s', async (_kind, magic) => {
    expect(await judge(bytes(magic, Buffer.alloc(40)))).toEqual(refused('other-kind'));
    expect(await judge(bytes('?', magic, Buffer.alloc(40)))).toEqual(refused('not-an-image'));
  });

  it.each([
    ['<svg>', 'vector'],
    ['<SVG width="3">', 'vector'],
    ['\xef\xbb\xbf\n <svg\n>', 'vector'],
    ['<!DOCTYPE svg><svg >', 'vector'],
    ['<svgs>', 'not-an-image'],
    ['one <svg>', 'not-an-image'],
    ['<html>', 'not-an-image'],
  ] as const)('%j', async (text, failure) => {
    expect(await judge(bytes(text))).toEqual(refused(failure));
  });

  it.each([
    ['RIFF', bytes('RIFF', u32(36), 'WAVE', Buffer.alloc(40))],
    ['PNG with the line ends of a text', bytes('\x89PNG\n\x1a\n', Buffer.alloc(40))],
    ['WebP behind something else', bytes('?RIFF', u32(36), 'WEBP', Buffer.alloc(40))],
    ['half a JPEG marker', bytes(0xff, 0xd9, Buffer.alloc(40))],
  ])('%s that is none', async (_kind, file) => {
    expect(await judge(file)).toEqual(refused('not-an-image'));
  });
});
