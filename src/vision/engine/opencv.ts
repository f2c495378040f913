/** The part of OpenCV that is used here, how to start it, and how to use it without leaks. */
import { onlyUsed } from './only-used.ts';

export interface Mat {
  readonly rows: number;
  readonly cols: number;
  /** Views into the engine's memory: worthless after the next call that may allocate there. */
  readonly data: Uint8Array;
  readonly data32S: Int32Array;
  delete(): void;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Cv {
  readonly Mat: new (rows?: number, cols?: number, type?: number) => Mat;
  readonly CV_8UC1: number;
  readonly CV_32S: number;
  readonly ADAPTIVE_THRESH_MEAN_C: number;
  readonly THRESH_BINARY_INV: number;
  readonly THRESH_OTSU: number;
  /** All of the engine's memory; grows, never shrinks. */
  readonly HEAPU8: Uint8Array;
  adaptiveThreshold(
    from: Mat,
    to: Mat,
    maxValue: number,
    method: number,
    type: number,
    window: number,
    offset: number,
  ): void;
  threshold(from: Mat, to: Mat, threshold: number, maxValue: number, type: number): number;
  GaussianBlur(from: Mat, to: Mat, window: Size, sigma: number): void;
  /** `stats` has a row of left, top, width, height, area for each label; label 0 is the background. */
  connectedComponentsWithStats(
    from: Mat,
    labels: Mat,
    stats: Mat,
    centroids: Mat,
    connectivity: 4 | 8,
    type: number,
  ): number;
  exceptionFromPtr(pointer: number): { readonly msg: string };
}

/** A WebAssembly instance; its own types belong to the browser's world or to Node's. */
interface Instance {
  readonly exports: object;
}

/** What `virtual:opencv` and `factorySource` give. */
export type CvFactory = (options: {
  instantiateWasm(imports: object, receive: (instance: Instance) => void): object;
}) => Cv;

/**
 * Starts the engine; it is ready when this returns.
 * @param instantiate makes an instance of the compiled opencv.wasm, at once
 */
export function startEngine(factory: CvFactory, instantiate: (imports: object) => Instance): Cv {
  const cv: Cv & { then?: unknown } = factory({
    instantiateWasm(imports, receive) {
      const instance = instantiate(onlyUsed(imports));
      receive(instance);
      return instance.exports;
    },
  });
  // It resolves to itself: any await of it would hang for ever.
  delete cv.then;
  return cv;
}

export class EngineError extends Error {
  override readonly name = 'EngineError';
}

/** Hands an engine object to the enclosing `withMats`, which deletes it at its end. */
export type Keep = <T extends { delete(): void }>(object: T) => T;

/**
 * Runs `work` and deletes everything it kept, whether it returns or throws.
 * @throws EngineError with OpenCV's own message where OpenCV throws a number
 */
export function withMats<T>(cv: Cv, work: (keep: Keep) => T): T {
  const kept: { delete(): void }[] = [];
  try {
    return work((object) => {
      kept.push(object);
      return object;
    });
  } catch (error) {
    if (typeof error === 'number') throw new EngineError(cv.exceptionFromPtr(error).msg);
    throw error;
  } finally {
    for (const object of kept) object.delete();
  }
}
