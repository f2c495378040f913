/** Spectra of the studio: plain arrays sampled every 5 nm from 380 to 730 nm. */
export const FIRST_NM = 380;
export const STEP_NM = 5;
export const WAVELENGTHS_NM: readonly number[] = Array.from({ length: 71 }, (_, i) => FIRST_NM + STEP_NM * i);

/** One number per entry of WAVELENGTHS_NM. */
export type Spectrum = readonly number[];

export type Triple = readonly [number, number, number];

export function spectrumOf(at: (nm: number) => number): Spectrum {
  return WAVELENGTHS_NM.map(at);
}

export function combine(one: Spectrum, two: Spectrum, how: (a: number, b: number) => number): Spectrum {
  return one.map((a, i) => how(a, two[i]!));
}

/** Product of up to three spectra, summed over the wavelengths. */
export function overlap(one: Spectrum, two: Spectrum, three?: Spectrum): number {
  let sum = 0;
  for (let i = 0; i < one.length; i++) sum += one[i]! * two[i]! * (three ? three[i]! : 1);
  return sum;
}

/** A peak of height 1. */
export function gaussian(nm: number, peakNm: number, sigmaNm: number): number {
  const t = (nm - peakNm) / sigmaNm;
  return Math.exp(-0.5 * t * t);
}

/** Rises from 0 to 1 about a wavelength. */
export function sigmoid(nm: number, middleNm: number, widthNm: number): number {
  return 1 / (1 + Math.exp(-(nm - middleNm) / widthNm));
}

/** A peak given by its full width at half maximum, which is how absorption bands are usually reported. */
export interface Band {
  readonly peakNm: number;
  readonly fwhmNm: number;
  readonly height: number;
}

const FWHM_PER_SIGMA = 2 * Math.sqrt(2 * Math.LN2);

export function sumOfBands(bands: readonly Band[]): Spectrum {
  return spectrumOf((nm) =>
    bands.reduce((sum, band) => sum + band.height * gaussian(nm, band.peakNm, band.fwhmNm / FWHM_PER_SIGMA), 0),
  );
}
