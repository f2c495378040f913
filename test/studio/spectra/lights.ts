/** Lights a card may lie under, as relative spectral power scaled to the same luminance. */
import { daylight } from './daylight.ts';
import { chromaticityOf, colourMatching } from './observer.ts';
import { combine, gaussian, overlap, sigmoid, spectrumOf, type Spectrum } from './wavelengths.ts';

/** Planck's law; c2 of ITS-90 (1.438777e-2 m K). Relative: 100 at 560 nm. */
export function planck(temperatureK: number): Spectrum {
  const c2NmK = 1.438777e7;
  const power = (nm: number) => nm ** -5 / (Math.exp(c2NmK / (nm * temperatureK)) - 1);
  return spectrumOf((nm) => (100 * power(nm)) / power(560));
}

/* Peak, height, width below and above the peak. */
type Lobe = readonly [peakNm: number, height: number, belowNm: number, aboveNm: number];

/* Least-squares fits of three lobes to the CIE's LED illuminants B1 (2733 K), B3 (4103 K) and B5 (6598 K), CIE 015:2018. */
const LED_LOBES: Readonly<Record<'warm' | 'neutral' | 'cool', readonly Lobe[]>> = {
  warm: [
    [451, 0.3, 9.9, 11.9],
    [570, 0.54, 57.7, 49],
    [619, 0.64, 34.4, 55],
  ],
  neutral: [
    [448, 0.86, 9.4, 9.2],
    [553, 0.72, 55.9, 54.3],
    [618, 0.45, 31.5, 53.2],
  ],
  cool: [
    [452, 0.91, 10.9, 11.1],
    [554, 0.5, 49.3, 63.4],
    [625, 0.04, 25.4, 90],
  ],
};

/** A phosphor-converted white LED: a blue pump and two broad phosphors. `shiftNm` moves the pump, as lamps differ. */
export function ledWhite(kind: 'warm' | 'neutral' | 'cool', shiftNm = 0): Spectrum {
  return spectrumOf((nm) =>
    LED_LOBES[kind].reduce((sum, [peakNm, height, belowNm, aboveNm], i) => {
      const peak = i === 0 ? peakNm + shiftNm : peakNm;
      return sum + height * gaussian(nm, peak, nm < peak ? belowNm : aboveNm);
    }, 0),
  );
}

/* Fits to the CIE's three-band fluorescent lamps FL12 (3000 K) and FL11 (4000 K), CIE 015:2018: peak, heights, width. */
const TRI_BAND: readonly (readonly [peakNm: number, warm: number, cool: number, sigmaNm: number])[] = [
  [405, 0.166, 0.154, 2.5],
  [436, 0.424, 0.421, 2.5],
  [452, 0.026, 0.085, 17],
  [488, 0.177, 0.182, 4.6],
  [497, 0.047, 0.043, 5],
  [544, 0.887, 0.933, 3.7],
  [550, 0.184, 0.178, 4],
  [586, 0.211, 0.195, 7.5],
  [611, 1.029, 0.781, 3.7],
  [630, 0.17, 0.139, 9.8],
  [705, 0.062, 0.045, 7],
];

/** A three-band fluorescent lamp: rare-earth phosphor lines with the mercury lines among them. */
export function triBand(kind: 'warm' | 'cool'): Spectrum {
  const index = kind === 'warm' ? 1 : 2;
  return spectrumOf((nm) => TRI_BAND.reduce((sum, line) => sum + line[index] * gaussian(nm, line[0], line[3]), 0.012));
}

/** Sky light that has passed or been thrown back by leaves: greener, and redder beyond 690 nm. */
export function underLeaves(cctK: number, share: number): Spectrum {
  const leaf = spectrumOf((nm) => 0.25 + 0.9 * gaussian(nm, 553, 28) + 1.4 * sigmoid(nm, 705, 9));
  return combine(daylight(cctK), leaf, (light, green) => light * (1 - share + share * green));
}

export function mix(one: Spectrum, two: Spectrum, shareOfTwo: number): Spectrum {
  return combine(evenly(one), evenly(two), (a, b) => (1 - shareOfTwo) * a + shareOfTwo * b);
}

const LUMINOUS = spectrumOf((nm) => colourMatching(nm)[1]);

/** Scales a light to luminance 1 (in the studio's own unit), so that lights can be mixed and compared. */
export function evenly(light: Spectrum): Spectrum {
  const luminance = overlap(light, LUMINOUS);
  return light.map((power) => power / luminance);
}

/** How much of a paper's brightener a light can excite: power just above the ultraviolet against the whole. */
export function brightening(light: Spectrum): number {
  const violet = (light[0]! + light[2]! + light[4]!) / 3;
  return violet / (light.reduce((sum, power) => sum + power, 0) / light.length);
}

/** Correlated colour temperature by C. S. McCamy, Color Res. Appl. 17:142, 1992 (2000 to 12500 K). */
export function correlatedTemperatureK(light: Spectrum): number {
  const [x, y] = chromaticityOf(light);
  const n = (x - 0.332) / (0.1858 - y);
  return 449 * n ** 3 + 3525 * n ** 2 + 6823.3 * n + 5520.33;
}
