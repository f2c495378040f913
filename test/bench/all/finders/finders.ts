/** Finders of printed codes, ours among them, behind one shape. */
import { createRequire } from 'node:module';
import { readFile } from 'node:fs/promises';
import decodeQR from 'qr/decode.js';
import { prepareZXingModule as prepareReader, readBarcodes } from 'zxing-wasm/reader';
import { prepareZXingModule as prepareWriter } from 'zxing-wasm/writer';
import type { Pixels } from '../../../../src/vision/pixels.ts';
import type { Symbology } from './sheet.ts';

export interface CodeFinder {
  readonly name: string;
  readonly symbology: Symbology;
  /** It can look for several codes in a picture. */
  readonly findsSeveral: boolean;
  /** Texts of the codes in a picture, at most `count`. */
  find(pixels: Pixels, count: number): Promise<readonly string[]> | readonly string[];
}

/** qr gives up its further tries after the time of one frame of a screen; here it may take as long as they need. */
const RETRY_MILLIS = 1000;

const require = createRequire(import.meta.url);

/** The libraries' own settings, but for what is looked for. From files: left alone, zxing-wasm would fetch them. */
export async function startFinders(): Promise<readonly CodeFinder[]> {
  const wasm = async (path: string) => ({
    overrides: { wasmBinary: new Uint8Array(await readFile(require.resolve(path))).buffer },
    fireImmediately: true as const,
  });
  await prepareReader(await wasm('zxing-wasm/reader/zxing_reader.wasm'));
  await prepareWriter(await wasm('zxing-wasm/writer/zxing_writer.wasm'));
  return [
    zxing('QRCode'),
    zxing('DataMatrix'),
    { name: 'qr', symbology: 'QRCode', findsSeveral: false, find: findByQr },
  ];
}

function zxing(symbology: Symbology): CodeFinder {
  return {
    name: 'zxing-wasm',
    symbology,
    findsSeveral: true,
    find: async ({ data, width, height }, count) => {
      const picture = { data, width, height, colorSpace: 'srgb' } as unknown as ImageData;
      const codes = await readBarcodes(picture, { formats: [symbology], maxNumberOfSymbols: count });
      return codes.filter(({ isValid }) => isValid).map(({ text }) => text);
    },
  };
}

function findByQr({ data, width, height }: Pixels): string[] {
  try {
    return [decodeQR({ data, width, height }, { timeLimit: RETRY_MILLIS })];
  } catch {
    // That is how it says that there is none.
    return [];
  }
}
