import { describe, expect, it } from 'vitest';
import { WIDTH, HEIGHT, type Part, bytes, judge, readOf, refused, good, u16 } from './header-bytes.ts';

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
