/**
 * The dyes of the practice pads: published indicators, each as the bands of its two forms.
 *
 * Peaks and pKa are handbook values (acid-base indicators: CRC Handbook of Chemistry and Physics, section 8;
 * E. Bishop, "Indicators", 1972), from memory, unverified, except where a note says otherwise. Widths and
 * relative heights aren't measured: they are chosen near published spectra, a little broader, as dyes held by paper are.
 */
import { sumOfBands, type Spectrum } from '../spectra/wavelengths.ts';

export interface Dye {
  /** Absorption per unit of dye: the form at low pH, without metal, or before oxidation. */
  readonly first: Spectrum;
  /** Absorption per unit of dye: the form at high pH, with metal bound, or oxidised. */
  readonly second: Spectrum;
}

/** Phenol red: yellow 433 nm, red 558 nm. The forms cross near 477 nm, as in the spectra plotted in the
 *  vignette "Phenol Red - pH Indicator" of the R package colorSpec (G. Davis). */
export const PHENOL_RED = {
  pKa: 7.9,
  first: sumOfBands([
    { peakNm: 433, fwhmNm: 82, height: 0.44 },
    { peakNm: 360, fwhmNm: 60, height: 0.1 },
  ]),
  second: sumOfBands([
    { peakNm: 558, fwhmNm: 52, height: 0.9 },
    { peakNm: 518, fwhmNm: 86, height: 0.36 },
    { peakNm: 365, fwhmNm: 70, height: 0.24 },
  ]),
} satisfies Dye & { pKa: number };

/** Bromocresol green: yellow 444 nm, blue 617 nm. */
export const BROMOCRESOL_GREEN = {
  pKa: 4.7,
  first: sumOfBands([{ peakNm: 444, fwhmNm: 94, height: 0.45 }]),
  second: sumOfBands([
    { peakNm: 617, fwhmNm: 82, height: 0.95 },
    { peakNm: 580, fwhmNm: 84, height: 0.3 },
    { peakNm: 395, fwhmNm: 60, height: 0.2 },
  ]),
} satisfies Dye & { pKa: number };

/** Bromothymol blue: yellow 433 nm, blue 617 nm. */
export const BROMOTHYMOL_BLUE = {
  pKa: 7.1,
  first: sumOfBands([{ peakNm: 433, fwhmNm: 98, height: 0.5 }]),
  second: sumOfBands([
    { peakNm: 617, fwhmNm: 94, height: 0.95 },
    { peakNm: 560, fwhmNm: 80, height: 0.16 },
    { peakNm: 400, fwhmNm: 70, height: 0.2 },
  ]),
} satisfies Dye & { pKa: number };

/** Calmagite at pH 10: free blue 610 nm, magnesium complex wine red about 535 nm. */
export const CALMAGITE = {
  first: sumOfBands([
    { peakNm: 612, fwhmNm: 108, height: 1 },
    { peakNm: 395, fwhmNm: 80, height: 0.22 },
  ]),
  second: sumOfBands([
    { peakNm: 534, fwhmNm: 96, height: 0.98 },
    { peakNm: 390, fwhmNm: 80, height: 0.25 },
  ]),
} satisfies Dye;

/** Syringaldazine: pale yellow, oxidised 1:1 by free chlorine to a purple of 530 nm (peak and ratio read in the
 *  summary of Standard Methods 4500-Cl H at nemi.gov). */
export const SYRINGALDAZINE = {
  first: sumOfBands([{ peakNm: 362, fwhmNm: 62, height: 0.5 }]),
  second: sumOfBands([
    { peakNm: 530, fwhmNm: 96, height: 1 },
    { peakNm: 592, fwhmNm: 70, height: 0.18 },
  ]),
} satisfies Dye;

/** N,N-diethyl-p-phenylenediamine: colourless, oxidised to a magenta radical with bands at 512 and 553 nm. */
export const DPD = {
  first: sumOfBands([{ peakNm: 340, fwhmNm: 50, height: 0.2 }]),
  second: sumOfBands([
    { peakNm: 512, fwhmNm: 50, height: 0.92 },
    { peakNm: 553, fwhmNm: 36, height: 0.95 },
    { peakNm: 470, fwhmNm: 70, height: 0.22 },
  ]),
} satisfies Dye;
