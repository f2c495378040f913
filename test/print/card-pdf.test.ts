import { beforeAll, describe, expect, it } from 'vitest';
import { ANCHORS, FIDUCIALS, MARKS, NEUTRALS, SLOT } from '../../src/core/card/geometry.ts';
import type { Rect } from '../../src/core/card/geometry.ts';
import { PRINT_MARK_CELLS, printMarkBits } from '../../src/core/card/print-mark.ts';
import { stampPdf } from '../../src/core/card/stamp-pdf.ts';
import { cardPdf } from '../../src/print/card-pdf.ts';
import { readPdf } from './read-pdf.ts';
import type { PdfBox, PdfFill, PdfPage } from './read-pdf.ts';

/** ISO 216: A4 is 210 x 297 mm. US Letter is 8.5 x 11 inches. A point is 1/72 inch. */
const PAGE_POINTS = { a4: [(210 / 25.4) * 72, (297 / 25.4) * 72], letter: [8.5 * 72, 11 * 72] } as const;

const cases = (['colour', 'black'] as const).flatMap((variant) =>
  (['a4', 'letter'] as const).map((paper) => ({ variant, paper })),
);

describe.each(cases)('the $variant card on $paper', ({ variant, paper }) => {
  let page: PdfPage;
  let file: string;

  beforeAll(async () => {
    const bytes = await cardPdf(variant, paper, 0xa3f);
    page = readPdf(bytes);
    file = Buffer.from(bytes).toString('latin1');
  });

  it('has the paper’s size', () => {
    expect(page.widthPoints).toBeCloseTo(PAGE_POINTS[paper][0], 3);
    expect(page.heightPoints).toBeCloseTo(PAGE_POINTS[paper][1], 3);
  });

  it('asks the print dialog for no scaling', () => {
    expect(file).toMatch(/\/ViewerPreferences \d+ 0 R/);
    expect(file).toMatch(/\/PrintScaling \/None/);
  });

  it('uses no colour but for the anchors', () => {
    const coloured = page.fills.filter(({ operator }) => operator !== 'g');
    expect(coloured.length).toBe(variant === 'colour' ? 2 * ANCHORS.length : 0);
    expect(coloured.every(({ levels }) => levels.length === 3)).toBe(true);
    expect(page.operators.has('rg')).toBe(variant === 'colour');
    expect(file).not.toMatch(/\/ICCBased|\/DeviceCMYK|\/DeviceRGB/);
  });

  it('prints type in solid black', () => {
    expect(page.textColours.length).toBeGreaterThan(20);
    for (const colour of page.textColours) expect(colour).toEqual({ operator: 'g', levels: [0] });
  });

  it('holds two whole cards that leave the printer a margin', () => {
    const cards = corners(page);
    expect(cards.length).toBe(2);
    const [first, second] = cards as [PdfBox, PdfBox];
    expect(second.yMm - first.yMm).toBeGreaterThan(105);
    for (const { xMm, yMm } of cards) {
      expect(Math.min(xMm, page.widthPoints / (72 / 25.4) - xMm - 148)).toBeGreaterThan(13);
      expect(Math.min(yMm, page.heightPoints / (72 / 25.4) - yMm - 105)).toBeGreaterThan(13);
    }
  });

  it('puts every patch where the geometry says, in its ink', () => {
    for (const corner of corners(page)) {
      for (const patch of [...NEUTRALS.filter(({ ink }) => ink > 0), SLOT]) {
        const fill = fillAt(page.fills, corner, patch);
        expect(fill?.operator, patch.id).toBe('g');
        expect(fill?.levels[0], patch.id).toBeCloseTo(1 - patch.ink, 4);
      }
      for (const fiducial of FIDUCIALS) expect(fillAt(page.fills, corner, fiducial)?.levels, fiducial.id).toEqual([0]);
      for (const { id, xMm, yMm, diameterMm: size } of MARKS) {
        const bounds = { id, xMm: xMm - size / 2, yMm: yMm - size / 2, widthMm: size, heightMm: size };
        expect(fillAt(page.fills, corner, bounds)?.levels, id).toEqual([0]);
      }
      for (const anchor of variant === 'colour' ? ANCHORS : []) {
        const fill = fillAt(page.fills, corner, anchor);
        expect(fill?.operator, anchor.id).toBe('rg');
        anchor.srgb.forEach((level, i) => expect(fill!.levels[i]).toBeCloseTo(level, 4));
      }
    }
  });

  it('paints nothing on bare paper patches', () => {
    const bare = NEUTRALS.filter(({ ink }) => ink === 0);
    expect(bare.length).toBe(2);
    for (const corner of corners(page)) {
      for (const patch of bare) {
        const x = corner.xMm + patch.xMm + patch.widthMm / 2;
        const y = corner.yMm + patch.yMm + patch.heightMm / 2;
        const over = page.fills.flatMap(({ boxes }) => boxes).filter((box) => contains(box, x, y));
        expect(over).toEqual([]);
      }
    }
  });

  it('bears its mark on both cards, and none before it is stamped', async () => {
    const cellsOf = ({ fills }: PdfPage) =>
      fills
        .map(({ boxes }) => boxes)
        .filter((boxes) => boxes.every((box) => near(box.widthMm, 3) && near(box.heightMm, 2.5)));
    const expected = PRINT_MARK_CELLS.filter((_, i) => printMarkBits(0xa3f)[i]);
    corners(page).forEach((corner, card) => {
      const cells = cellsOf(page)[card]!;
      expect(cells.length).toBe(expected.length);
      cells.forEach(({ xMm, yMm }, i) => {
        expect(xMm).toBeCloseTo(corner.xMm + expected[i]!.xMm, 3);
        expect(yMm).toBeCloseTo(corner.yMm + expected[i]!.yMm, 3);
      });
    });
    const template = await cardPdf(variant, paper, 0);
    expect(cellsOf(readPdf(template))).toEqual([]);
    // A stamp changes no length, so that the table of offsets holds; and a second one takes the place of the first.
    expect(template.length).toBe(file.length);
    expect(Buffer.from(stampPdf(stampPdf(template, 7), 0xa3f)).toString('latin1')).toBe(file);
    expect(() => stampPdf(new Uint8Array(Buffer.from('%PDF-1.7')), 7)).toThrow(RangeError);
  });

  it('has a rule of 50 mm', () => {
    const rules = page.fills.filter(({ boxes }) => boxes.length === 52);
    expect(rules.length).toBe(2);
    for (const { boxes } of rules) {
      const middles = boxes.filter(({ widthMm }) => widthMm < 1).map(({ xMm, widthMm }) => xMm + widthMm / 2);
      expect(Math.max(...middles) - Math.min(...middles)).toBeCloseTo(50, 4);
    }
  });

  it('comes out the same every time', async () => {
    expect(Buffer.from(await cardPdf(variant, paper, 0xa3f)).toString('latin1')).toBe(file);
  });
});

/** The corner of each card, from its top left fiducial: the leftmost black squares of 14 mm, the higher of each pair. */
function corners(page: PdfPage): PdfBox[] {
  const [topLeft] = FIDUCIALS;
  const squares = page.fills.map(bounds).filter(({ widthMm, heightMm }) => near(widthMm, 14) && near(heightMm, 14));
  const left = Math.min(...squares.map(({ xMm }) => xMm));
  return squares
    .filter(({ xMm }) => near(xMm, left))
    .sort((a, b) => a.yMm - b.yMm)
    .filter((_, i) => i % 2 === 0)
    .map((square) => ({ ...square, xMm: square.xMm - topLeft!.xMm, yMm: square.yMm - topLeft!.yMm }));
}

function fillAt(fills: readonly PdfFill[], corner: PdfBox, rect: Rect): PdfFill | undefined {
  const matching = fills.filter((fill) => {
    const box = bounds(fill);
    return (
      near(box.xMm, corner.xMm + rect.xMm) &&
      near(box.yMm, corner.yMm + rect.yMm) &&
      near(box.widthMm, rect.widthMm) &&
      near(box.heightMm, rect.heightMm)
    );
  });
  expect(matching.length, rect.id).toBe(1);
  return matching[0];
}

function bounds({ boxes }: PdfFill): PdfBox {
  const xMm = Math.min(...boxes.map((box) => box.xMm));
  const yMm = Math.min(...boxes.map((box) => box.yMm));
  const right = Math.max(...boxes.map((box) => box.xMm + box.widthMm));
  const bottom = Math.max(...boxes.map((box) => box.yMm + box.heightMm));
  return { xMm, yMm, widthMm: right - xMm, heightMm: bottom - yMm };
}

function contains({ xMm, yMm, widthMm, heightMm }: PdfBox, x: number, y: number): boolean {
  return x > xMm && x < xMm + widthMm && y > yMm && y < yMm + heightMm;
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) < 0.001;
}
