import { describe, expect, it } from 'vitest';
import { drawCard } from '../../../src/core/card/drawing.ts';
import type { Box, Boxes, Shape } from '../../../src/core/card/drawing.ts';
import {
  ANCHORS,
  CARD_HEIGHT_MM,
  CARD_WIDTH_MM,
  CHECK_RULE,
  FIDUCIALS,
  MARKS,
  NEUTRALS,
  PAPER_PATCHES,
  SLOT,
  VERSION_CELLS,
  parseVersionBits,
} from '../../../src/core/card/geometry.ts';
import { boundsOf, grown, overlap } from './bounds.ts';
import { CARD_WORDS } from '../../../src/words/card.ts';

/** Clear paper kept around every fiducial. */
const QUIET_MM = 2;

const variants = ['colour', 'black'] as const;

/** Where a strip 110 mm long and 8 mm wide may lie, 4 mm and 5 degrees off. */
const STRIP_ZONE: Box = { xMm: 14, yMm: 39.5, widthMm: 120, heightMm: 26 };

/** Of version 1, without a mark, and with one. */
const cards = variants.flatMap((variant) => [null, 0, 0xa3f].map((mark) => ({ variant, mark })));

describe.each(cards)('the $variant card, mark $mark', ({ variant, mark }) => {
  const shapes = drawCard(variant, mark, CARD_WORDS);
  const printed = shapes.flatMap((shape) =>
    boundsOf(shape).map((box) => ({ part: shape.part, kind: shape.kind, box })),
  );

  it('keeps everything a millimetre inside the card', () => {
    const inside = grown({ xMm: 0, yMm: 0, widthMm: CARD_WIDTH_MM, heightMm: CARD_HEIGHT_MM }, -1);
    for (const { part, box } of printed) {
      expect(box.xMm, part).toBeGreaterThanOrEqual(inside.xMm);
      expect(box.yMm, part).toBeGreaterThanOrEqual(inside.yMm);
      expect(box.xMm + box.widthMm, part).toBeLessThanOrEqual(inside.xMm + inside.widthMm);
      expect(box.yMm + box.heightMm, part).toBeLessThanOrEqual(inside.yMm + inside.heightMm);
    }
  });

  it('prints no part over or within 0.3 mm of another', () => {
    const clashes = printed.flatMap((one, i) =>
      printed
        .slice(i + 1)
        .filter((other) => other.part !== one.part && overlap(grown(one.box, 0.3), other.box))
        .map((other) => `${one.part} and ${other.part}`),
    );
    expect(clashes).toEqual([]);
  });

  it('prints no line of type over another', () => {
    const lines = shapes.filter((shape) => shape.kind === 'text');
    const clashes = lines.flatMap((one, i) =>
      lines
        .slice(i + 1)
        .filter((other) => overlap(boundsOf(one)[0]!, boundsOf(other)[0]!))
        .map((other) => `${one.text} | ${other.text}`),
    );
    expect(lines.length).toBeGreaterThan(5);
    expect(clashes).toEqual([]);
  });

  it('keeps clear paper around the fiducials', () => {
    for (const fiducial of FIDUCIALS) {
      const quiet = grown(fiducial, QUIET_MM);
      const intruders = printed.filter(({ part, box }) => part !== fiducial.id && overlap(quiet, box));
      expect(intruders, fiducial.id).toEqual([]);
    }
  });

  it('keeps the strip’s place clear of all but the slot', () => {
    const found = new Set(printed.filter(({ box }) => overlap(box, STRIP_ZONE)).map(({ part }) => part));
    expect([...found]).toEqual(['slot']);
  });

  it('leaves the paper patches and the bare neutrals unprinted', () => {
    const bare = [...PAPER_PATCHES, ...NEUTRALS.filter(({ ink }) => ink === 0)];
    expect(bare.length).toBe(8);
    for (const patch of bare)
      expect(
        printed.filter(({ box }) => overlap(box, patch)),
        patch.id,
      ).toEqual([]);
  });

  it('prints every neutral and the slot in black ink of its coverage', () => {
    for (const { id, ink, xMm, yMm, widthMm, heightMm } of [...NEUTRALS.filter((n) => n.ink > 0), SLOT]) {
      const shape = boxesOf(shapes, id)[0]!;
      expect(shape.paint).toEqual({ ink });
      expect(shape.boxes).toEqual([{ xMm, yMm, widthMm, heightMm }]);
    }
  });

  it('prints the fiducials’ cells as their codes say', () => {
    for (const { id, xMm, yMm, cells } of FIDUCIALS) {
      const { boxes } = boxesOf(shapes, id)[0]!;
      const seen = cells.map((row, r) =>
        [...row]
          .map((_, c) => (covered(boxes, xMm + 2 + 2.5 * (c + 0.5), yMm + 2 + 2.5 * (r + 0.5)) ? '#' : '.'))
          .join(''),
      );
      expect(seen).toEqual(cells);
      for (const along of [1, 7, 13]) {
        for (const [x, y] of [
          [along, 1],
          [along, 13],
          [1, along],
          [13, along],
        ] as const) {
          expect(covered(boxes, xMm + x, yMm + y), `${id} frame`).toBe(true);
        }
      }
    }
  });

  it('prints a version code that reads back', () => {
    const { boxes } = boxesOf(shapes, 'version')[0]!;
    const bits = VERSION_CELLS.map(({ xMm, yMm, widthMm, heightMm }) =>
      covered(boxes, xMm + widthMm / 2, yMm + heightMm / 2),
    );
    expect(parseVersionBits(bits)).toEqual({ version: mark === null ? 1 : 2, variant });
  });

  it('prints every mark', () => {
    for (const mark of MARKS) {
      expect(shapes).toContainEqual(
        expect.objectContaining({ kind: 'disc', part: mark.id, xMm: mark.xMm, yMm: mark.yMm, diameterMm: 2.4 }),
      );
    }
  });

  it('has a rule of 50 mm between the middles of its end ticks', () => {
    const ticks = boxesOf(shapes, 'rule')[0]!
      .boxes.filter((box) => box.widthMm < 1)
      .map((box) => box.xMm + box.widthMm / 2)
      .sort((a, b) => a - b);
    expect(ticks.length).toBe(51);
    expect(ticks.at(-1)! - ticks[0]!).toBeCloseTo(50, 9);
    expect(ticks[0]).toBeCloseTo(CHECK_RULE.xMm, 9);
  });
});

describe('the two cards', () => {
  it('differ in the anchors', () => {
    expect(drawCard('colour', 1, CARD_WORDS).filter((shape) => 'paint' in shape && 'srgb' in shape.paint).length).toBe(
      ANCHORS.length,
    );
    expect(drawCard('black', 1, CARD_WORDS).filter((shape) => 'paint' in shape && 'srgb' in shape.paint)).toEqual([]);
  });

  it('say which they are', () => {
    const words = (variant: 'colour' | 'black') =>
      drawCard(variant, 1, CARD_WORDS)
        .flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []))
        .join(' ');
    expect(words('black')).toMatch(/black only/);
    expect(words('black')).toMatch(/no colour patches/i);
    expect(words('colour')).not.toMatch(/black only/);
  });
});

function boxesOf(shapes: readonly Shape[], part: string): Boxes[] {
  return shapes.filter((shape): shape is Boxes => shape.kind === 'boxes' && shape.part === part);
}

function covered(boxes: readonly Box[], xMm: number, yMm: number): boolean {
  return boxes.some(
    (box) => xMm > box.xMm && xMm < box.xMm + box.widthMm && yMm > box.yMm && yMm < box.yMm + box.heightMm,
  );
}
