/** White sheets of the card's size with printed codes, for the pictures that otherwise show the card. */
import { encodeQR } from 'qr';
import { writeBarcode } from 'zxing-wasm/writer';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM, FIDUCIAL_SIZE_MM, FIDUCIALS } from '../../../../src/core/card/geometry.ts';
import type { Canvas } from '../../../vision/pictures/canvas.ts';
import { type Box, sheetLevels } from '../../../vision/pictures/printed-card.ts';

export type Symbology = 'QRCode' | 'DataMatrix';
export type CodeSize = 'fiducial' | 'card';

/** Quiet cells around a code, as its standard asks: ISO/IEC 18004 and 16022. */
const QUIET = { QRCode: 4, DataMatrix: 1 } as const;

/** Short, so that each code is the coarsest of its kind: 21 cells for QR, 10 for Data Matrix. */
export const CODE_TEXTS = ['1001', '2002', '3003', '4004'] as const;

/** One code in each fiducial's place and of its size, or a single one as large as the card bears. */
export async function codeSheet(symbology: Symbology, size: CodeSize): Promise<readonly Canvas[]> {
  if (size === 'fiducial') {
    const boxes = await Promise.all(
      FIDUCIALS.map(async ({ xMm, yMm }, i) =>
        boxesOf(await cellsOf(symbology, CODE_TEXTS[i]!), xMm, yMm, FIDUCIAL_SIZE_MM),
      ),
    );
    return sheetLevels(boxes.flat());
  }
  const cells = await cellsOf(symbology, CODE_TEXTS[0]);
  const sideMm = (CARD_HEIGHT_MM * cells.length) / (cells.length + 2 * QUIET[symbology]);
  return sheetLevels(boxesOf(cells, (CARD_WIDTH_MM - sideMm) / 2, (CARD_HEIGHT_MM - sideMm) / 2, sideMm));
}

/** Rows of a code without its quiet zone; true is ink. */
export async function cellsOf(symbology: Symbology, text: string): Promise<boolean[][]> {
  if (symbology === 'QRCode') {
    const withBorder = encodeQR(text, 'raw', { border: 1, ecc: 'medium' });
    return withBorder.slice(1, -1).map((row) => row.slice(1, -1));
  }
  const { symbol } = await writeBarcode(text, { format: 'DataMatrix' });
  const { data, width, height } = symbol;
  return Array.from({ length: height }, (_, row) =>
    Array.from({ length: width }, (_, column) => data[row * width + column] === 0),
  );
}

function boxesOf(cells: readonly (readonly boolean[])[], xMm: number, yMm: number, sideMm: number): Box[] {
  const cell = sideMm / cells.length;
  return cells.flatMap((row, i) =>
    row.flatMap((isInk, k) =>
      isInk ? [{ xMm: xMm + k * cell, yMm: yMm + i * cell, widthMm: cell, heightMm: cell }] : [],
    ),
  );
}
