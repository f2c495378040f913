import { describe, expect, it } from 'vitest';
import { WIDTH, HEIGHT, type Part, bytes, judge, refused, good, u32, le24 } from './header-bytes.ts';

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
