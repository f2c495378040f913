/** Damaged and random files, the same for the same seed. */
import sharp, { type Sharp } from 'sharp';
import { crc32 } from 'node:zlib';
import { animatedWebp, type PhotoFile } from '../../core/photo/files.ts';
import { type Random, randomFrom } from '../../vision/pictures.ts';

const WIDTH = 320;
/** Most of what decoders decide by lies here. */
const HEADER_BYTES = 700;

type Damage = (bytes: Buffer, random: Random, other: Buffer) => Buffer;

/** Sound files of every kind that a decoder may meet. */
export async function soundFiles(photo: string): Promise<Buffer[]> {
  const picture = await sharp(photo).resize(WIDTH).png().toBuffer();
  const ways: ((picture: Sharp) => Sharp)[] = [
    (s) => s.jpeg(),
    (s) => s.jpeg({ progressive: true }),
    (s) => s.jpeg({ chromaSubsampling: '4:4:4' }).withIccProfile('p3').withMetadata({ orientation: 6 }),
    (s) => s.toColourspace('cmyk').jpeg(),
    (s) => s.png(),
    (s) => s.png({ progressive: true }),
    (s) => s.toColourspace('rgb16').withIccProfile('p3').png(),
    (s) => s.png({ palette: true }),
    (s) => s.ensureAlpha(0.5).png(),
    (s) => s.webp(),
    (s) => s.webp({ lossless: true }),
    (s) => s.withIccProfile('p3').ensureAlpha(0.5).webp(),
    (s) => s.avif({ effort: 0 }),
    (s) => s.withIccProfile('p3').avif({ effort: 0, chromaSubsampling: '4:4:4' }),
    (s) => s.gif(),
    (s) => s.tiff(),
  ];
  const made = await Promise.all(ways.map((way) => way(sharp(picture)).toBuffer()));
  return [...made, await animatedWebp(picture), Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9"/>')];
}

const pick = <T>(random: Random, all: readonly T[]): T => all[Math.floor(random() * all.length)]!;
const below = (random: Random, limit: number): number => Math.floor(random() * limit);

const DAMAGES: readonly Damage[] = [
  function flipBits(bytes, random) {
    const reach = random() < 0.5 ? Math.min(HEADER_BYTES, bytes.length) : bytes.length;
    for (let i = 1 + below(random, 20); i > 0; i--) bytes[below(random, reach)]! ^= 1 << below(random, 8);
    return bytes;
  },
  function overwrite(bytes, random) {
    const at = below(random, bytes.length);
    return bytes.fill(below(random, 256), at, Math.min(bytes.length, at + 1 + below(random, 200)));
  },
  function scramble(bytes, random) {
    const at = below(random, bytes.length);
    for (let i = at; i < Math.min(bytes.length, at + 60); i++) bytes[i] = below(random, 256);
    return bytes;
  },
  function extremes(bytes, random) {
    const at = below(random, Math.min(HEADER_BYTES, bytes.length - 4));
    const value = pick(random, [0, 1, 0x7fff, 0xffff, 0x7fffffff, 0xffffffff, 0x10000, 0x4000]);
    if (random() < 0.5) bytes.writeUInt32BE(value, at);
    else bytes.writeUInt32LE(value, at);
    return bytes;
  },
  function cut(bytes, random) {
    return bytes.subarray(0, below(random, bytes.length));
  },
  function cutAndPad(bytes, random) {
    return Buffer.from(bytes).fill(pick(random, [0, 0xff, 0x20]), below(random, bytes.length));
  },
  function dropPart(bytes, random) {
    const at = below(random, bytes.length);
    return Buffer.concat([bytes.subarray(0, at), bytes.subarray(at + 1 + below(random, 500))]);
  },
  function repeatPart(bytes, random) {
    const at = below(random, bytes.length);
    const part = bytes.subarray(at, at + 1 + below(random, 300));
    return Buffer.concat([
      bytes.subarray(0, at),
      ...Array<Buffer>(1 + below(random, 30)).fill(part),
      bytes.subarray(at),
    ]);
  },
  function splice(bytes, random, other) {
    return Buffer.concat([bytes.subarray(0, below(random, bytes.length)), other.subarray(below(random, other.length))]);
  },
  function keepOnlyStart(bytes, random) {
    const noise = Buffer.from(Array.from({ length: below(random, 20_000) }, () => below(random, 256)));
    return Buffer.concat([bytes.subarray(0, below(random, 64)), noise]);
  },
];

const ENDINGS = ['jpg', 'jpeg', 'png', 'webp', 'avif', 'heic', 'gif', 'svg', 'txt'];
const TYPES = ['image/jpeg', 'image/png', 'image/webp', 'image/avif', 'image/heic', '', 'text/plain'];

/** One file: a sound one damaged once to three times, under any name. */
export function damagedFile(sound: readonly Buffer[], seed: number): PhotoFile {
  const random = randomFrom(seed);
  let bytes = Buffer.from(pick(random, sound));
  for (let i = 1 + below(random, 3); i > 0 && bytes.length > 8; i--) {
    bytes = Buffer.from(pick(random, DAMAGES)(bytes, random, pick(random, sound)));
  }
  // Otherwise no damage to a PNG would get past its checksums.
  if (random() < 0.6) mendChecksums(bytes);
  return { name: `${seed}.${pick(random, ENDINGS)}`, type: pick(random, TYPES), bytes };
}

function mendChecksums(bytes: Buffer): void {
  if (bytes.length < 8 || bytes.readUInt32BE(0) !== 0x89504e47) return;
  let at = 8;
  while (at + 12 <= bytes.length) {
    const end = at + 8 + bytes.readUInt32BE(at);
    if (end + 4 > bytes.length) return;
    bytes.writeUInt32BE(crc32(bytes.subarray(at + 4, end)), end);
    at = end + 4;
  }
}
