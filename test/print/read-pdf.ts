/**
 * A small reader of uncompressed one-page PDFs, after ISO 32000-1: section 8.4.4 for the graphics
 * state, 8.5 for paths, 8.6.8 for colour operators, 9.4 for text. It knows only what a card may hold
 * and throws at any other operator.
 */
export interface PdfBox {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** One fill: the boxes of its subpaths, in mm from the page's top left corner, and its colour. */
export interface PdfFill {
  readonly operator: 'g' | 'rg';
  readonly levels: readonly number[];
  readonly boxes: readonly PdfBox[];
}

export interface PdfPage {
  readonly widthPoints: number;
  readonly heightPoints: number;
  readonly fills: readonly PdfFill[];
  /** The colour each line of type was painted in. */
  readonly textColours: readonly Pick<PdfFill, 'operator' | 'levels'>[];
  readonly operators: ReadonlySet<string>;
}

type Matrix = readonly [number, number, number, number, number, number];
type Points = [number, number][];

interface State {
  matrix: Matrix;
  colour: Pick<PdfFill, 'operator' | 'levels'>;
}

const POINTS_PER_MM = 72 / 25.4;

export function readPdf(bytes: Uint8Array): PdfPage {
  const file = Buffer.from(bytes).toString('latin1');
  const page = /\/Type \/Page\n[\s\S]*?endobj/.exec(file)![0];
  const [, , widthPoints, heightPoints] = /\/MediaBox \[(.*?)\]/.exec(page)![1]!.split(' ').map(Number);
  const contents = /\/Contents (\d+) 0 R/.exec(page)![1]!;
  const object = new RegExp(`\\n${contents} 0 obj\\n([\\s\\S]*?)stream\\n([\\s\\S]*?)\\nendstream`).exec(file)!;
  if (object[1]!.includes('/Filter')) throw new Error('The content stream is compressed');
  return { widthPoints: widthPoints!, heightPoints: heightPoints!, ...run(object[2]!, heightPoints!) };
}

function run(content: string, heightPoints: number): Omit<PdfPage, 'widthPoints' | 'heightPoints'> {
  // A page starts with black in DeviceGray: 8.4.1, table 52.
  let state: State = { matrix: [1, 0, 0, 1, 0, 0], colour: { operator: 'g', levels: [0] } };
  const saved: State[] = [];
  let subpaths: Points[] = [];
  const fills: PdfFill[] = [];
  const textColours: PdfPage['textColours'][number][] = [];
  const operators = new Set<string>();

  const place = (x: number, y: number) => {
    const [a, b, c, d, e, f] = state.matrix;
    return [(a * x + c * y + e) / POINTS_PER_MM, (heightPoints - (b * x + d * y + f)) / POINTS_PER_MM] as [
      number,
      number,
    ];
  };
  const box = (points: Points): PdfBox => {
    const xs = points.map(([x]) => x);
    const ys = points.map(([, y]) => y);
    const xMm = Math.min(...xs);
    const yMm = Math.min(...ys);
    return { xMm, yMm, widthMm: Math.max(...xs) - xMm, heightMm: Math.max(...ys) - yMm };
  };
  const actions: Record<string, (numbers: number[]) => void> = {
    q: () => saved.push({ ...state }),
    Q: () => (state = saved.pop()!),
    cm: (m) => (state.matrix = multiply(m as unknown as Matrix, state.matrix)),
    g: (levels) => (state.colour = { operator: 'g', levels }),
    rg: (levels) => (state.colour = { operator: 'rg', levels }),
    re: ([x, y, w, h]) => subpaths.push([place(x!, y!), place(x! + w!, y! + h!)]),
    m: ([x, y]) => subpaths.push([place(x!, y!)]),
    // The control points of the four arcs of a circle stay within its bounding box.
    c: (n) => subpaths.at(-1)!.push(place(n[0]!, n[1]!), place(n[2]!, n[3]!), place(n[4]!, n[5]!)),
    h: () => undefined,
    f: () => {
      fills.push({ ...state.colour, boxes: subpaths.map(box) });
      subpaths = [];
    },
    BT: () => textColours.push(state.colour),
    Tm: () => undefined,
    Tf: () => undefined,
    TJ: () => undefined,
    ET: () => undefined,
  };

  // A line that begins with a % is a comment: 7.2.3.
  for (const line of content.split('\n').filter((one) => one && !one.startsWith('%'))) {
    const [, operands, operator] = /^ ?(.*?)\s*([A-Za-z*'"]+)$/.exec(line) ?? [];
    if (!operator) throw new Error(`Can't read “${line}”`);
    const action = actions[operator];
    if (!action) throw new Error(`A card has no business with the operator ${operator}`);
    operators.add(operator);
    action(operands!.split(' ').map(Number));
  }
  if (saved.length > 0 || subpaths.length > 0) throw new Error('The page ends with something open');
  return { fills, textColours, operators };
}

/** 8.3.4: the new matrix applies first. */
function multiply(m: Matrix, n: Matrix): Matrix {
  return [
    m[0] * n[0] + m[1] * n[2],
    m[0] * n[1] + m[1] * n[3],
    m[2] * n[0] + m[3] * n[2],
    m[2] * n[1] + m[3] * n[3],
    m[4] * n[0] + m[5] * n[2] + n[4],
    m[4] * n[1] + m[5] * n[3] + n[5],
  ];
}
