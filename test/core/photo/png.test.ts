import { describe, expect, it } from 'vitest';
import { WIDTH, HEIGHT, type Part, bytes, judge, readOf, refused, good, u32 } from './header-bytes.ts';

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
