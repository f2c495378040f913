/** Headers written byte by byte as the formats' specifications lay them out: what no encoder here would write. */
import { describe, expect, it } from 'vitest';
import { ByteReader } from '../../../src/core/photo/byte-source.ts';
import type { PhotoFailure } from '../../../src/core/photo/failure.ts';
import type { PhotoHeader } from '../../../src/core/photo/header.ts';
import { hugeFactor } from '../../../src/core/photo/huge.ts';
import { type FileJudgement, judgeFile, sizeFailure } from '../../../src/core/photo/judge-file.ts';

const WIDTH = 0x0190;
const HEIGHT = 0x012c;

type Part = string | number | readonly number[] | Buffer;

/** Numbers are bytes, strings one byte a character. */
function bytes(...parts: readonly Part[]): Buffer {
  return Buffer.concat(
    parts.map((part) =>
      typeof part === 'string' ? Buffer.from(part, 'latin1') : Buffer.from(typeof part === 'number' ? [part] : part),
    ),
  );
}

function judge(file: Buffer): Promise<FileJudgement> {
  return judgeFile({ size: file.length, read: (from, to) => Promise.resolve(file.subarray(from, to)) });
}

/** How much of a file is read to judge it, bytes. */
async function readOf(file: Buffer): Promise<number> {
  let total = 0;
  const read = (from: number, to: number) => {
    total += to - from;
    return Promise.resolve(file.subarray(from, to));
  };
  expect(await judgeFile({ size: file.length, read })).toMatchObject({ ok: true });
  return total;
}

const refused = (failure: PhotoFailure) => ({ ok: false, failure });
const good = (header: Partial<PhotoHeader>) => ({ ok: true, header });

const u16 = (value: number) => [value >> 8, value & 255];
const u32 = (value: number) => [...u16(value >>> 16), ...u16(value & 0xffff)];
const le24 = (value: number) => [value & 255, (value >> 8) & 255, value >> 16];

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

// ITU-T T.81, annex B.
describe('JPEG', () => {
  const SOI = [0xff, 0xd8];
  const EOI = [0xff, 0xd9];
  const frame = (marker = 0xc0, components = 3, width = WIDTH, height = HEIGHT) =>
    bytes(0xff, marker, u16(8 + 3 * components), 8, u16(height), u16(width), components, Buffer.alloc(3 * components));
  const scan = (...data: Part[]) => bytes(0xff, 0xda, u16(8), Buffer.alloc(6), ...data);
  const header = { kind: 'jpeg', width: WIDTH, height: HEIGHT, colours: 'rgb', hdr: false, complete: true } as const;

  it.each([0xc0, 0xc1, 0xc2, 0xc3, 0xc5, 0xc6, 0xc7, 0xc9, 0xca, 0xcb, 0xcd, 0xce, 0xcf])(
    'has a frame at marker %d',
    async (marker) => {
      expect(await judge(bytes(SOI, frame(marker), scan(1, 2), EOI))).toEqual(good(header));
    },
  );

  it.each([0xc4, 0xc8, 0xcc, 0xbf, 0xdb, 0xe1])('goes over a segment of marker %d', async (marker) => {
    expect(await judge(bytes(SOI, frame(marker, 3, 9, 9), frame(), scan(), EOI))).toEqual(good(header));
    expect(await judge(bytes(SOI, frame(marker), scan(), EOI))).toEqual(refused('damaged'));
  });

  it.each([
    [1, 'no-colour'],
    [2, 'damaged'],
    [4, 'printing-inks'],
  ] as const)('of %d components: %s', async (components, failure) => {
    expect(await judge(bytes(SOI, frame(0xc0, components), scan(), EOI))).toEqual(refused(failure));
  });

  it.each([
    ['fill bytes', [0xff, 0xff, 0xff]],
    ['TEM', [0xff, 0x01]],
    ['a restart marker', [0xff, 0xd0]],
    ['the last restart marker', [0xff, 0xd7]],
    ['a second start', [0xff, 0xd8]],
    ['a segment that claims no length', [0xff, 0xe0, 0, 0]],
  ])('may have %s before the frame', async (_name, before) => {
    expect(await judge(bytes(SOI, before, frame(), scan(), EOI))).toEqual(good(header));
  });

  it.each([
    ['without width', bytes(SOI, frame(0xc0, 3, 0), scan(), EOI)],
    ['without height', bytes(SOI, frame(0xc0, 3, WIDTH, 0), scan(), EOI)],
    ['with its scan before the frame', bytes(SOI, scan(), frame(), EOI)],
    ['with its end before the frame', bytes(SOI, EOI, frame(), EOI)],
    ['with something between the segments', bytes(SOI, 0, frame(), scan(), EOI)],
    ['cut within the frame', bytes(SOI, frame().subarray(0, 8))],
    ['that never comes to a frame', bytes(SOI, ...Array<Part>(2000).fill([0xff, 0x01]), frame(), EOI)],
    ['that hasn’t its end', bytes(SOI, frame(), scan(1, 2, 3))],
    ['that ends in half a marker', bytes(SOI, frame(), scan(1, 2), 0xff)],
    ['that ends in another marker', bytes(SOI, frame(), scan(1, 2), SOI)],
    ['that ends in the other half', bytes(SOI, frame(), scan(1, 2), 0xd9)],
  ])('is damaged %s', async (_name, file) => {
    expect(await judge(file)).toEqual(refused('damaged'));
  });

  /** Longer than where the end is looked for first, and without a zero at its end. */
  const behind = Buffer.alloc(5000, 'film');

  it.each([
    ['an end', bytes(scan(1, 2), EOI)],
    ['a stuffed FF and restarts in the data', bytes(scan(0xff, 0, 4, 0xff, 0xd0, 3, 0xff, 0xd7, 5), EOI)],
    ['several scans and tables between', bytes(scan(1), frame(0xc4), scan(2), EOI)],
    ['fill bytes before the end', bytes(scan(1), 0xff, EOI)],
    ['restart markers outside of a scan', bytes([0xff, 0xd1], scan(1), EOI)],
  ])('is whole with something behind: %s', async (_name, rest) => {
    expect(await judge(bytes(SOI, frame(), rest, behind))).toEqual(good(header));
  });

  it.each([
    ['the end only inside a segment', bytes(0xff, 0xe0, u16(6), EOI, 1, 1, scan(1))],
    ['the end stuffed away', bytes(scan(0xff, 0, 0xd9))],
    ['something that is no marker', bytes([7, 7], scan(1), EOI)],
  ])('is damaged with something behind: %s', async (_name, rest) => {
    expect(await judge(bytes(SOI, frame(), rest, behind))).toEqual(refused('damaged'));
  });

  it('may end in zeros', async () => {
    expect(await judge(bytes(SOI, frame(), scan(1), EOI, Buffer.alloc(4000)))).toEqual(good(header));
  });

  it('is judged by its two ends, however long it is', async () => {
    const data = Buffer.alloc(3_000_000, 1);
    expect(await readOf(bytes(SOI, frame(), scan(), data, EOI))).toBeLessThan(80_000);
    expect(await readOf(bytes(SOI, frame(), scan(), data, EOI, Buffer.alloc(2000)))).toBeLessThan(80_000);
  });

  it('may have its end across two steps of reading', async () => {
    const start = bytes(SOI, frame(), scan());
    // Data is gone through 1 MiB at a time: FF is the last byte of the first.
    const data = Buffer.alloc(1_048_576 - 1, 1);
    expect(await judge(bytes(start, data, EOI, behind))).toEqual(good(header));
  });
});

// W3C PNG, third edition, 5.3 and 11.2.
describe('PNG', () => {
  const SIGNATURE = bytes('\x89PNG\r\n\x1a\n');
  const chunk = (type: string, ...content: Part[]) => {
    const body = bytes(...content);
    return bytes(u32(body.length), type, body, u32(0));
  };
  const END = bytes(u32(0), 'IEND', [0xae, 0x42, 0x60, 0x82]);
  const ihdr = (colour = 2, width = WIDTH, height = HEIGHT) =>
    chunk('IHDR', u32(width), u32(height), 8, colour, 0, 0, 0);
  const data = chunk('IDAT', 1, 2, 3);
  const header = { kind: 'png', width: WIDTH, height: HEIGHT, hdr: false, complete: true } as const;

  it.each([
    [2, 'rgb'],
    [6, 'rgb'],
  ] as const)('of colour type %d', async (type, colours) => {
    expect(await judge(bytes(SIGNATURE, ihdr(type), data, END))).toEqual(good({ ...header, colours }));
  });

  it.each([
    [0, 'no-colour'],
    [4, 'no-colour'],
    [3, 'few-colours'],
    [1, 'damaged'],
    [5, 'damaged'],
    [7, 'damaged'],
  ] as const)('of colour type %d: %s', async (type, failure) => {
    expect(await judge(bytes(SIGNATURE, ihdr(type), data, END))).toEqual(refused(failure));
  });

  it.each([
    ['no width', bytes(SIGNATURE, ihdr(2, 0), data, END)],
    ['no height', bytes(SIGNATURE, ihdr(2, WIDTH, 0), data, END)],
    ['a header of another length', bytes(SIGNATURE, chunk('IHDR', Buffer.alloc(14, 2)), data, END)],
    ['something else first', bytes(SIGNATURE, chunk('IDAT', Buffer.alloc(13, 2)), data, END)],
    ['no more than the signature', SIGNATURE],
    ['no end', bytes(SIGNATURE, ihdr(), data)],
    ['an end that is cut', bytes(SIGNATURE, ihdr(), data, END.subarray(0, -5))],
  ])('is damaged with %s', async (_name, file) => {
    expect(await judge(file)).toEqual(refused('damaged'));
  });

  it('has its end found behind something long, by the chunks', async () => {
    const behind = Buffer.alloc(70_000, 'film');
    expect(await judge(bytes(SIGNATURE, ihdr(), data, END, behind))).toMatchObject({ ok: true });
    expect(await judge(bytes(SIGNATURE, ihdr(), data, behind))).toEqual(refused('damaged'));
    // Near its end a file may hold an I that begins no end.
    expect(await judge(bytes(SIGNATURE, ihdr(), data, END, 'III'))).toMatchObject({ ok: true });
  });

  it('is judged by its two ends, however many chunks it has', async () => {
    const chunks = Array.from({ length: 40 }, () => chunk('IDAT', Buffer.alloc(70_000, 1)));
    expect(await readOf(bytes(SIGNATURE, ihdr(), ...chunks, END))).toBeLessThan(200_000);
    expect(await readOf(bytes(SIGNATURE, ihdr(), ...chunks, END, 'III'))).toBeLessThan(200_000);
  });

  it.each([
    ['before the data', [chunk('gAMA', u32(1)), chunk('cICP', 9, 16, 0, 1), data], refused('high-dynamic-range')],
    ['behind the data, where it may not stand', [data, chunk('cICP', 9, 16, 0, 1)], { ok: true }],
    ['of an ordinary screen', [chunk('cICP', 1, 13, 0, 1), data], { ok: true }],
  ])('tells high dynamic range by cICP %s', async (_name, chunks, judged) => {
    expect(await judge(bytes(SIGNATURE, ihdr(), ...chunks, END))).toMatchObject(judged);
  });
});

// RFC 9649, and RFC 6386 9.1 for the frame header.
describe('WebP', () => {
  const riff = (content: Buffer, claimed = 4 + content.length) =>
    bytes('RIFF', [...u32(claimed)].reverse(), 'WEBP', content);
  const form = (type: string, ...content: Part[]) => bytes(type, [0, 0, 0, 0], ...content, Buffer.alloc(20));
  const header = { kind: 'webp', colours: 'rgb', hdr: false, complete: true } as const;
  const lossless = (width: number, height: number, signature = 0x2f) => {
    const bits = (width - 1) | ((height - 1) << 14);
    return form('VP8L', signature, [...u32(bits >>> 0)].reverse());
  };

  it('extended: 24 bits each way, less one', async () => {
    const extended = form('VP8X', [0, 0, 0, 0], le24(15_999), le24(299));
    expect(await judge(riff(extended))).toEqual(good({ ...header, width: 16_000, height: 300 }));
    const huge = form('VP8X', [0, 0, 0, 0], le24(0x012345), le24(0x0fff));
    expect(await judge(riff(huge))).toEqual(refused('too-many-pixels'));
  });

  it('lossless: 14 bits each way, less one', async () => {
    expect(await judge(riff(lossless(WIDTH, HEIGHT)))).toEqual(good({ ...header, width: WIDTH, height: HEIGHT }));
    expect(await judge(riff(lossless(16_384, 250)))).toEqual(good({ ...header, width: 16_384, height: 250 }));
    expect(await judge(riff(lossless(250, 16_384)))).toEqual(good({ ...header, width: 250, height: 16_384 }));
    expect(await judge(riff(lossless(WIDTH, HEIGHT, 0x2e)))).toEqual(refused('damaged'));
  });

  it('lossy: 14 bits each way behind the start code, the scaling left out', async () => {
    const lossy = (code: readonly number[], width: number, height: number) =>
      form('VP8 ', [0, 0, 0], code, [width & 255, width >> 8], [height & 255, height >> 8]);
    const CODE = [0x9d, 0x01, 0x2a];
    const size = { width: WIDTH, height: HEIGHT };
    expect(await judge(riff(lossy(CODE, WIDTH, HEIGHT)))).toEqual(good({ ...header, ...size }));
    expect(await judge(riff(lossy(CODE, WIDTH | 0x4000, HEIGHT | 0x8000)))).toEqual(good({ ...header, ...size }));
    expect(await judge(riff(lossy([0x9d, 0x01, 0x2b], WIDTH, HEIGHT)))).toEqual(refused('damaged'));
    expect(await judge(riff(lossy(CODE, 0, HEIGHT)))).toEqual(refused('damaged'));
    expect(await judge(riff(lossy(CODE, WIDTH, 0)))).toEqual(refused('damaged'));
  });

  it('is damaged when it claims more than there is, or something else comes first', async () => {
    const content = lossless(WIDTH, HEIGHT);
    expect(await judge(riff(content, 5 + content.length))).toEqual(refused('damaged'));
    expect(await judge(riff(form('ALPH', Buffer.alloc(9))))).toEqual(refused('damaged'));
    expect(await judge(bytes('RIFF', u32(4), 'WEBP'))).toEqual(refused('damaged'));
  });
});

// ISO/IEC 14496-12 (boxes), 23008-12 (brands, ispe) and 23000-22 (AVIF).
describe('HEIF', () => {
  const box = (type: string, ...content: Part[]) => {
    const body = bytes(...content);
    return bytes(u32(8 + body.length), type, body);
  };
  const longBox = (type: string, ...content: Part[]) => {
    const body = bytes(...content);
    return bytes(u32(1), type, u32(0), u32(16 + body.length), body);
  };
  const openBox = (type: string, ...content: Part[]) => bytes(u32(0), type, ...content);
  const VERSION = [0, 0, 0, 0];
  const brand = (name: string, ...others: string[]) => box('ftyp', name, VERSION, ...others);
  const size = (width: number, height: number) => box('ispe', VERSION, u32(width), u32(height));
  const colour = (transfer: number, type = 'nclx') => box('colr', type, u16(9), u16(transfer), u16(9), 0x80);
  const meta = (...properties: Buffer[]) => box('meta', VERSION, box('iprp', box('ipco', ...properties)));
  const header = { kind: 'avif', width: WIDTH, height: HEIGHT, colours: 'rgb', hdr: false, complete: true } as const;
  const AVIF = brand('avif', 'mif1');

  it.each(['avif', 'avis'])('is AVIF by the brand %s, first or among the others', async (name) => {
    expect(await judge(bytes(brand(name), meta(size(WIDTH, HEIGHT))))).toEqual(good(header));
    expect(await judge(bytes(brand('mif1', 'miaf', name), meta(size(WIDTH, HEIGHT))))).toEqual(good(header));
  });

  it.each(['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'hevm', 'hevs', 'mif1', 'msf1'])(
    'is HEIC by the brand %s',
    async (name) => {
      const kind = { ...header, kind: 'heic' } as const;
      expect(await judge(bytes(brand(name), meta(size(WIDTH, HEIGHT))))).toEqual(good(kind));
      expect(await judge(bytes(brand('isom', name), meta(size(WIDTH, HEIGHT))))).toEqual(good(kind));
      expect(await judge(brand(name))).toEqual(refused('heic'));
    },
  );

  it.each(['heia', 'hei1', 'mif2'])('is neither by the brand %s', async (name) => {
    expect(await judge(bytes(brand(name), meta(size(WIDTH, HEIGHT))))).toEqual(refused('other-kind'));
  });

  it('has the largest size that is declared', async () => {
    const sizes = [size(160, 120), size(WIDTH, 250), size(300, HEIGHT)];
    expect(await judge(bytes(AVIF, meta(...sizes)))).toEqual(good(header));
    expect(await judge(bytes(AVIF, meta(...sizes.toReversed())))).toEqual(good(header));
  });

  it('may have other boxes before those that matter, also empty ones', async () => {
    const others = [box('free'), box('hdlr', VERSION, 'pict')];
    const iprp = box('iprp', ...others, box('ipco', ...others, size(WIDTH, HEIGHT)));
    expect(await judge(bytes(AVIF, ...others, box('meta', VERSION, ...others, iprp)))).toEqual(good(header));
    // As many bytes of properties as are looked through: 20 of the size, 8 of the other's head.
    const full = meta(size(WIDTH, HEIGHT), box('free', Buffer.alloc(262_144 - 28)));
    expect(await judge(bytes(AVIF, full))).toEqual(good(header));
  });

  it('may have boxes of a long length, and a last box to the end', async () => {
    const iprp = longBox('iprp', longBox('ipco', size(WIDTH, HEIGHT)));
    expect(await judge(bytes(AVIF, longBox('meta', VERSION, iprp), box('mdat', 1)))).toEqual(good(header));
    const open = openBox('meta', VERSION, openBox('iprp', openBox('ipco', size(WIDTH, HEIGHT))));
    expect(await judge(bytes(AVIF, open))).toEqual(good(header));
  });

  it('tells high dynamic range by nclx alone', async () => {
    expect(await judge(bytes(AVIF, meta(size(WIDTH, HEIGHT), colour(16))))).toEqual(refused('high-dynamic-range'));
    expect(await judge(bytes(AVIF, meta(colour(18), size(WIDTH, HEIGHT), colour(13))))).toEqual(
      refused('high-dynamic-range'),
    );
    expect(await judge(bytes(AVIF, meta(size(WIDTH, HEIGHT), colour(16, 'prof'))))).toEqual(good(header));
  });

  it.each([
    ['no meta box', bytes(AVIF, box('mdat', 1))],
    ['no properties', bytes(AVIF, box('meta', VERSION, box('iprp')))],
    ['no width', bytes(AVIF, meta(size(0, HEIGHT)))],
    ['no height', bytes(AVIF, meta(size(WIDTH, 0)))],
    ['no size', bytes(AVIF, meta(colour(13)))],
    ['a box that reaches beyond the file', bytes(AVIF, meta(size(WIDTH, HEIGHT)), u32(9), 'mdat')],
    ['a box shorter than its head', bytes(AVIF, meta(size(WIDTH, HEIGHT)), u32(7), 'mdat', Buffer.alloc(20))],
    ['a thousand boxes before', bytes(AVIF, ...Array<Buffer>(1000).fill(box('free')), meta(size(WIDTH, HEIGHT)))],
    ['properties beyond all reason', bytes(AVIF, meta(size(WIDTH, HEIGHT), box('free', Buffer.alloc(262_144))))],
  ])('is damaged with %s', async (_name, file) => {
    expect(await judge(file)).toEqual(refused('damaged'));
  });
});
