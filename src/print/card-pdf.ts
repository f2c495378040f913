/** The card as a PDF to print, two to a page. */
import PDFDocument from 'pdfkit';
import { drawCard, PRINT_MARK, PRINT_NAME } from '../core/card/drawing.ts';
import type { Paint, Shape } from '../core/card/drawing.ts';
import { CARD_VERSION } from '../core/card/geometry.ts';
import type { CardVariant } from '../core/card/geometry.ts';
import { PRINT_MARK_CELLS } from '../core/card/print-mark.ts';
import { CELLS_FOLLOW, DIGITS, NAME_FOLLOWS, stampPdf } from '../core/card/stamp-pdf.ts';
import { LANGUAGE } from '../words/grammar.ts';
import { PAPERS, layOut } from './sheet.ts';
import type { Paper } from './sheet.ts';
import { anchorShiftMm, faceFile, setLine } from './typeface.ts';
import { CARD_WORDS } from '../words/card.ts';

type Doc = InstanceType<typeof PDFDocument>;

const POINTS_PER_MM = 72 / 25.4;

/** The same bytes at every build; the date stands for the edition of the card, not for the build. */
const EDITION_DATE = new Date('2026-01-01T00:00:00Z');

/**
 * Everything but the anchors is painted in DeviceGray, so that a printer uses black ink alone. The
 * page is left uncompressed: anyone can check that with a text editor, and a mark can be stamped in.
 * @param mark the print's own, on both cards; 0: none yet, see `stampPdf`
 */
export async function cardPdf(variant: CardVariant, paper: Paper, mark: number): Promise<Uint8Array<ArrayBuffer>> {
  const template = await templatePdf(variant, paper);
  return mark === 0 ? template : stampPdf(template, mark);
}

function templatePdf(variant: CardVariant, paper: Paper): Promise<Uint8Array<ArrayBuffer>> {
  const sheet = layOut(paper);
  const doc = new PDFDocument({
    autoFirstPage: false,
    compress: false,
    pdfVersion: '1.7',
    font: faceFile('regular'),
    lang: LANGUAGE,
    displayTitle: true,
    info: {
      Title: `Dipwise card, version ${CARD_VERSION}, ${variant === 'black' ? 'black only' : 'colour'}, ${PAPERS[paper].name}`,
      Creator: 'Dipwise',
      CreationDate: EDITION_DATE,
    },
  });
  askForActualSize(doc);
  doc.addPage({ size: [sheet.widthMm * POINTS_PER_MM, sheet.heightMm * POINTS_PER_MM], margin: 0 });
  doc.scale(POINTS_PER_MM);
  doc.addContent(`${DIGITS}${codesOf(doc, '0123456789ABCDEF').join(' ')}`);
  draw(doc, [{ kind: 'boxes', part: 'sheet', boxes: sheet.cropMarks, paint: { ink: 1 } }, ...sheet.texts]);
  for (const { xMm, yMm } of sheet.cards) {
    doc.save();
    doc.translate(xMm, yMm);
    draw(doc, drawCard(variant, 0, CARD_WORDS));
    doc.restore();
  }
  return finish(doc);
}

/** ISO 32000-1 table 150: the print dialog then offers no scaling by default. pdfkit has no option for it. */
function askForActualSize(doc: Doc): void {
  const { _root } = doc as unknown as { _root: { data: { ViewerPreferences: { data: Record<string, unknown> } } } };
  _root.data.ViewerPreferences.data['PrintScaling'] = 'None';
}

function draw(doc: Doc, shapes: readonly Shape[]): void {
  for (const shape of shapes) {
    if (shape.kind === 'text') {
      if (shape.part === PRINT_NAME) drawName(doc, shape);
      else drawText(doc, shape);
      continue;
    }
    doc.addContent(fillOperator(shape.paint));
    if (shape.part === PRINT_MARK) {
      drawUnmarked(doc);
      continue;
    }
    if (shape.kind === 'disc') doc.circle(shape.xMm, shape.yMm, shape.diameterMm / 2);
    else for (const box of shape.boxes) doc.rect(box.xMm, box.yMm, box.widthMm, box.heightMm);
    doc.fill();
  }
}

function drawText(doc: Doc, shape: Extract<Shape, { kind: 'text' }>): void {
  const left = anchorShiftMm(shape.anchor, setLine(shape).widthMm);
  doc.save();
  doc.addContent(fillOperator({ ink: 1 }));
  doc.translate(shape.xMm, shape.yMm).rotate(shape.turnDegrees);
  doc.font(faceFile(shape.weight)).fontSize(shape.sizeMm);
  doc.text(shape.text, -left, 0, { lineBreak: false, baseline: 'alphabetic' });
  doc.restore();
}

/** Every cell as a comment, until the file is stamped. */
function drawUnmarked(doc: Doc): void {
  const cells = PRINT_MARK_CELLS.map(
    ({ xMm, yMm, widthMm, heightMm }) => `%${[xMm, yMm, widthMm, heightMm].map(decimal).join(' ')} re`,
  );
  doc.addContent(`${CELLS_FOLLOW}${cells.join('\n')}\n%f`);
}

/** Character by character, each where the one before it ends, so that any can be put for any other. */
function drawName(doc: Doc, shape: Extract<Shape, { kind: 'text' }>): void {
  const codes = codesOf(doc, shape.text);
  doc.addContent(fillOperator({ ink: 1 }));
  // A page of pdfkit's has y downwards: type is set upright again.
  doc.addContent(`BT\n1 0 0 -1 ${decimal(shape.xMm)} ${decimal(shape.yMm)} Tm\n/${faceOf(doc).id} ${shape.sizeMm} Tf`);
  doc.addContent(`${NAME_FOLLOWS}${codes.map((code) => `[<${code}>] TJ`).join('\n')}\nET`);
}

/** What pdfkit has of a font but doesn't declare. */
interface PdfFace {
  readonly id: string;
  ref(): unknown;
  /** Four hexadecimal digits a glyph. */
  encode(text: string): [codes: string[], positions: unknown[]];
}

function faceOf(doc: Doc): PdfFace {
  return (doc as unknown as { _font: PdfFace })._font;
}

/** Codes of characters in the mark's face, as the page's content has them; the face becomes part of the file. */
function codesOf(doc: Doc, text: string): string[] {
  doc.font(faceFile('semibold'));
  const face = faceOf(doc);
  (doc.page as unknown as { fonts: Record<string, unknown> }).fonts[face.id] ??= face.ref();
  return [...text].flatMap((letter) => face.encode(letter)[0]);
}

/** pdfkit's own colours are always RGB or CMYK; `g` is DeviceGray (1 is white) and `rg` DeviceRGB. */
function fillOperator(paint: Paint): string {
  return 'ink' in paint ? `${decimal(1 - paint.ink)} g` : `${paint.srgb.map(decimal).join(' ')} rg`;
}

function decimal(value: number): string {
  return String(Math.round(value * 1e4) / 1e4);
}

function finish(doc: Doc): Promise<Uint8Array<ArrayBuffer>> {
  return new Promise((resolve, reject) => {
    const chunks: Buffer[] = [];
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('error', reject);
    doc.on('end', () => {
      resolve(new Uint8Array(Buffer.concat(chunks)));
    });
    doc.end();
  });
}
