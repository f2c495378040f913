/** What the card says of itself, in drawn photos. */
import { describe, expect, it } from 'vitest';
import { printMarkAt } from '../../src/core/card/print-mark.ts';
import { readCodes, readPrintMark } from '../../src/vision/card-codes.ts';
import { findCard } from '../../src/vision/card/find-card.ts';
import { flatten } from '../../src/vision/flatten.ts';
import { flatCard, photograph, randomFrom, randomShot, type Shot } from './pictures.ts';

/** Undefined where no card was found. */
function codesIn(shot: Shot) {
  const { pixels } = photograph(shot);
  const { card } = findCard(pixels);
  return card ? readCodes(flatten(pixels, card)) : undefined;
}

describe('the codes of a card', () => {
  it('are its version, its variant and the print’s own mark', () => {
    for (const variant of ['colour', 'black'] as const) {
      expect(readCodes(flatCard(variant, 0xa3f))).toEqual({ version: 2, variant, printMark: 0xa3f });
      expect(readCodes(flatCard(variant, 0))).toEqual({ version: 2, variant, printMark: null });
      expect(readCodes(flatCard(variant))).toEqual({ version: 1, variant, printMark: null });
    }
  });

  it('show no mark in the type of the first version', () => {
    expect(readPrintMark(flatCard())).toBeNull();
  });

  it('are read in photos from any side, in any light, tilted, blurred and curled', () => {
    const shots = Array.from({ length: 14 }, (_, i): Shot => {
      const mark = printMarkAt(randomFrom(4001 + 37 * i)());
      return { ...randomShot(900 + i), fill: 0.6 + 0.35 * randomFrom(70 + i)(), mark };
    });
    const seen = shots.map((shot) => ({ shot, codes: codesIn(shot) })).filter(({ codes }) => codes);
    expect(seen.length).toBeGreaterThan(12);
    const read = seen.filter(({ codes }) => codes!.printMark !== null);
    for (const { shot, codes } of read) expect(codes!.printMark, `seed ${shot.seed}`).toBe(shot.mark);
    expect(read.length / seen.length).toBeGreaterThan(0.9);
  });

  it('leave the mark unread where something lies on it', () => {
    const shot: Shot = {
      ...randomShot(3),
      fill: 0.8,
      tiltDegrees: 10,
      mark: 0xa3f,
      curlMm: 0,
      covers: [[100, 80, 12, 8]],
    };
    expect(codesIn(shot)).toMatchObject({ version: 2, printMark: null });
  });
});
