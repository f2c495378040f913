/** OpenCV 4.3, as opencv-wasm builds it: a reference to compare with. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { factorySource } from './factory-source.mjs';

export interface Mat {
  readonly cols: number;
  readonly data: Uint8Array;
  readonly data32S: Int32Array;
  readonly data64F: Float64Array;
  delete(): void;
}

/** What of it is compared with. */
export interface OpenCv {
  readonly Mat: new (rows?: number, cols?: number, type?: number) => Mat;
  readonly CV_8UC1: number;
  readonly CV_32S: number;
  readonly CV_64FC2: number;
  readonly ADAPTIVE_THRESH_MEAN_C: number;
  readonly THRESH_BINARY_INV: number;
  readonly THRESH_OTSU: number;
  matFromArray(rows: number, cols: number, type: number, values: readonly number[]): Mat;
  findHomography(from: Mat, to: Mat): Mat;
  adaptiveThreshold(from: Mat, to: Mat, most: number, method: number, type: number, side: number, less: number): void;
  threshold(from: Mat, to: Mat, threshold: number, most: number, type: number): number;
  GaussianBlur(from: Mat, to: Mat, side: { width: number; height: number }, sigma: number): void;
  /** `stats` has a row of left, top, width, height, area for each label; label 0 is the background. */
  connectedComponentsWithStats(
    from: Mat,
    labels: Mat,
    stats: Mat,
    centres: Mat,
    neighbours: 4 | 8,
    type: number,
  ): number;
}

type Factory = (options: {
  instantiateWasm(imports: WebAssembly.Imports, receive: (instance: WebAssembly.Instance) => void): object;
}) => OpenCv & { then?: unknown };

export function startOpenCv(): OpenCv {
  const require = createRequire(import.meta.url);
  const umd = readFileSync(require.resolve('opencv-wasm/opencv.js'), 'utf8');
  const wasm = Uint8Array.from(readFileSync(require.resolve('opencv-wasm/opencv.wasm')));
  const factory = new Function(`return ${factorySource(umd)}`)() as Factory;
  const cv = factory({
    instantiateWasm(imports, receive) {
      const instance = new WebAssembly.Instance(new WebAssembly.Module(wasm), imports);
      receive(instance);
      return instance.exports;
    },
  });
  // It resolves to itself: any await of it would hang for ever.
  delete cv.then;
  return cv;
}

type Keep = <T extends { delete(): void }>(object: T) => T;

/** Deletes all that `work` keeps: OpenCV's memory isn't collected. */
export function withMats<T>(work: (keep: Keep) => T): T {
  const kept: { delete(): void }[] = [];
  try {
    return work((object) => {
      kept.push(object);
      return object;
    });
  } finally {
    for (const object of kept) object.delete();
  }
}
