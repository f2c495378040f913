import { describe, expect, it } from 'vitest';
import { WIDTH, HEIGHT, type Part, bytes, judge, refused, good, u16, u32 } from './header-bytes.ts';

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
