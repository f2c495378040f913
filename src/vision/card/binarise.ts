/** Ink from paper: which pixels of a grey picture are dark for their surroundings. */
import type { Cv, Keep, Mat } from '../engine/opencv.ts';
import type { Grey } from './grey.ts';

export type Binarisation =
  | {
      readonly method: 'local';
      /** Side of the window whose mean is compared with, as a share of the picture's long side. */
      readonly window: number;
      /** How much darker than that mean ink is, levels. */
      readonly offset: number;
      /** Gaussian against noise, px; 0 for none. */
      readonly smoothPx: number;
    }
  /** One threshold for all (Otsu 1979). */
  | { readonly method: 'global' };

/** @returns 255 where ink may be, else 0; kept by the caller's scope */
export function binarise(cv: Cv, keep: Keep, grey: Grey, by: Binarisation): Mat {
  const from = keep(new cv.Mat(grey.height, grey.width, cv.CV_8UC1));
  from.data.set(grey.data);
  const ink = keep(new cv.Mat());
  if (by.method === 'global') {
    cv.threshold(from, ink, 0, 255, cv.THRESH_BINARY_INV | cv.THRESH_OTSU);
    return ink;
  }
  if (by.smoothPx > 0) {
    const window = 2 * Math.ceil(2 * by.smoothPx) + 1;
    cv.GaussianBlur(from, from, { width: window, height: window }, by.smoothPx);
  }
  // A window of one pixel has no surroundings: the engine refuses it.
  const window = 2 * Math.max(1, Math.round((by.window * Math.max(grey.width, grey.height)) / 2)) + 1;
  cv.adaptiveThreshold(from, ink, 255, cv.ADAPTIVE_THRESH_MEAN_C, cv.THRESH_BINARY_INV, window, by.offset);
  return ink;
}
