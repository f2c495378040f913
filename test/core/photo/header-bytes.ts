/** Headers written byte by byte as the formats' specifications lay them out: what no encoder here would write. */
import { expect } from 'vitest';
import type { PhotoFailure } from '../../../src/core/photo/failure.ts';
import type { PhotoHeader } from '../../../src/core/photo/header.ts';
import { type FileJudgement, judgeFile } from '../../../src/core/photo/judge-file.ts';

export const WIDTH = 0x0190;
export const HEIGHT = 0x012c;

export type Part = string | number | readonly number[] | Buffer;

/** Numbers are bytes, strings one byte a character. */
export function bytes(...parts: readonly Part[]): Buffer {
  return Buffer.concat(
    parts.map((part) =>
      typeof part === 'string' ? Buffer.from(part, 'latin1') : Buffer.from(typeof part === 'number' ? [part] : part),
    ),
  );
}

export function judge(file: Buffer): Promise<FileJudgement> {
  return judgeFile({ size: file.length, read: (from, to) => Promise.resolve(file.subarray(from, to)) });
}

/** How much of a file is read to judge it, bytes. */
export async function readOf(file: Buffer): Promise<number> {
  let total = 0;
  const read = (from: number, to: number) => {
    total += to - from;
    return Promise.resolve(file.subarray(from, to));
  };
  expect(await judgeFile({ size: file.length, read })).toMatchObject({ ok: true });
  return total;
}

export const refused = (failure: PhotoFailure) => ({ ok: false, failure });
export const good = (header: Partial<PhotoHeader>) => ({ ok: true, header });

export const u16 = (value: number) => [value >> 8, value & 255];
export const u32 = (value: number) => [...u16(value >>> 16), ...u16(value & 0xffff)];
export const le24 = (value: number) => [value & 255, (value >> 8) & 255, value >> 16];
