/** Names, places and strokes of the card's parts, by the arithmetic of their drawing. */
import { describe, expect, it } from 'vitest';
import { drawCard, type Box, type Text } from '../../../src/core/card/drawing.ts';
import {
  ANCHORS,
  CARD_HEIGHT_MM,
  CARD_WIDTH_MM,
  FIDUCIALS,
  MARKS,
  NEUTRALS,
  PAPER_PATCHES,
  parseVersionBits,
  SLOT,
  versionBits,
} from '../../../src/core/card/geometry.ts';
import { CARD_WORDS } from '../../../src/words/card.ts';

const shapes = drawCard('colour', 0xa3f, CARD_WORDS);
const boxesOf = (part: string) =>
  shapes.flatMap((shape) => (shape.kind === 'boxes' && shape.part === part ? [shape.boxes] : []));
const area = (boxes: readonly Box[]) => boxes.reduce((sum, { widthMm, heightMm }) => sum + widthMm * heightMm, 0);
const bounds = (boxes: readonly Box[]) => [
  Math.min(...boxes.map(({ xMm }) => xMm)),
  Math.min(...boxes.map(({ yMm }) => yMm)),
  Math.max(...boxes.map(({ xMm, widthMm }) => xMm + widthMm)),
  Math.max(...boxes.map(({ yMm, heightMm }) => yMm + heightMm)),
];

describe('the names of the parts', () => {
  it('are one for each, and as taught scales keep them', () => {
    const ids = [...FIDUCIALS, ...MARKS, ...NEUTRALS, ...ANCHORS, ...PAPER_PATCHES].map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { id } of ANCHORS) expect(id).toMatch(/^a[tb]\d+$/);
    for (const { id } of NEUTRALS) expect(id).toMatch(/^n[tb]\d+$/);
    for (const { id } of PAPER_PATCHES) expect(id).toMatch(/^p\d+$/);
  });

  it('say where a fiducial and a row lie', () => {
    for (const { id, xMm, yMm } of FIDUCIALS) {
      expect(id).toBe(`${yMm < CARD_HEIGHT_MM / 2 ? 'top' : 'bottom'}-${xMm < CARD_WIDTH_MM / 2 ? 'left' : 'right'}`);
    }
    for (const { id, yMm } of [...ANCHORS, ...NEUTRALS]) expect(id[1]).toBe(yMm < SLOT.yMm ? 't' : 'b');
  });
});

describe('the patches of bare paper', () => {
  it('lie in pairs above and below the slot, of one size', () => {
    expect(PAPER_PATCHES).toHaveLength(6);
    const above = PAPER_PATCHES.filter(({ yMm }) => yMm < SLOT.yMm);
    const below = PAPER_PATCHES.filter(({ yMm }) => yMm > SLOT.yMm + SLOT.heightMm);
    expect(above.map(({ xMm }) => xMm)).toEqual(below.map(({ xMm }) => xMm));
    for (const { widthMm, heightMm } of PAPER_PATCHES) expect([widthMm, heightMm]).toEqual([20, 1.6]);
  });

  it('and the bare neutrals have ticks of 1.8 mm at their corners, a quarter of a millimetre off', () => {
    const bare = NEUTRALS.filter(({ ink }) => ink === 0);
    expect(bare).toHaveLength(2);
    for (const { id, xMm, yMm, widthMm, heightMm } of bare) {
      const [ticks] = boxesOf(id);
      // A hairline is 0.2 mm.
      const [left, top, right, bottom] = [xMm - 0.45, yMm - 0.45, xMm + widthMm + 0.45, yMm + heightMm + 0.45];
      bounds(ticks!).forEach((end, i) => expect(end).toBeCloseTo([left, top, right, bottom][i]!, 9));
      // Four corners of 1.8 along and 1.6 down, which share no place.
      expect(area(ticks!)).toBeCloseTo(4 * (1.8 + 1.6) * 0.2, 9);
      const isIn = (x: number, y: number) =>
        ticks!.some((box) => x > box.xMm && x < box.xMm + box.widthMm && y > box.yMm && y < box.yMm + box.heightMm);
      for (const [x, toRight] of [
        [left, 1],
        [right, -1],
      ] as const) {
        // prettier-ignore
        for (const [y, down] of [[top, 1], [bottom, -1]] as const) { // prettier-ignore
          expect(isIn(x + toRight * 1.75, y + down * 0.1)).toBe(true);
          expect(isIn(x + toRight * 1.85, y + down * 0.1)).toBe(false);
          expect(isIn(x + toRight * 0.1, y + down * 1.75)).toBe(true);
          expect(isIn(x + toRight * 0.1, y + down * 1.85)).toBe(false);
        }
      }
    }
  });
});

describe('frames', () => {
  it('print no place twice: ink over ink is no blacker, but a drawing that overlaps is wrong', () => {
    for (const { id, widthMm, heightMm, cells } of FIDUCIALS) {
      expect(widthMm).toBe(heightMm);
      // 2 mm of frame around cells of 2.5 mm that fill it.
      expect(widthMm).toBeCloseTo(4 + 2.5 * cells.length, 9);
      const dark = [...cells.join('')].filter((cell) => cell === '#').length;
      expect(area(boxesOf(id)[0]!)).toBeCloseTo(widthMm ** 2 - (widthMm - 4) ** 2 + dark * 2.5 ** 2, 9);
    }
    const { widthMm, heightMm } = SLOT;
    const outline = (widthMm + 0.4) * (heightMm + 0.4) - widthMm * heightMm;
    expect(area(boxesOf('slot')[1]!)).toBeCloseTo(outline, 9);
  });
});

describe('the rule', () => {
  it('has longer ticks at fives, and the longest, with their numbers, at tens', () => {
    const ticks = boxesOf('rule')[0]!
      .filter(({ widthMm }) => widthMm < 1)
      .sort((a, b) => a.xMm - b.xMm);
    const heights = (is: (mm: number) => boolean) => [
      ...new Set(ticks.filter((_, mm) => is(mm)).map(({ heightMm }) => heightMm)),
    ];
    const [tens, fives, ones] = [
      heights((mm) => mm % 10 === 0),
      heights((mm) => mm % 10 === 5),
      heights((mm) => mm % 5 !== 0),
    ];
    expect([tens.length, fives.length, ones.length]).toEqual([1, 1, 1]);
    expect(tens[0]!).toBeGreaterThan(fives[0]!);
    expect(fives[0]!).toBeGreaterThan(ones[0]!);
    const numbers = shapes.filter((shape): shape is Text => shape.kind === 'text' && shape.part === 'rule');
    expect(numbers.map(({ text }) => text)).toEqual(['0', '10', '20', '30', '40', '50']);
    numbers.forEach(({ xMm, anchor }, i) => {
      expect(anchor).toBe('middle');
      expect(xMm).toBeCloseTo(ticks[10 * i]!.xMm + ticks[10 * i]!.widthMm / 2, 9);
    });
  });
});

describe('the version', () => {
  it('0 is none', () => {
    expect(parseVersionBits(versionBits(1, 'black'))).toEqual({ version: 1, variant: 'black' });
    expect(parseVersionBits(versionBits(0, 'colour'))).toBeNull();
  });
});
