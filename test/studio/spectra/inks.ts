/** Paper and what a printer puts on it. */
import { D50 } from './daylight.ts';
import { brightening } from './lights.ts';
import { labOf, xyzOf, xyzToLab } from './observer.ts';
import { gaussian, sigmoid, spectrumOf, sumOfBands, type Spectrum, type Triple } from './wavelengths.ts';

export interface Paper {
  /** Reflectance in the yellow, 0 to 1. Common office paper: 0.82 to 0.9 (from memory, unverified). */
  readonly level: number;
  /** How much the paper leans to yellow: 0 none, 0.1 cream. */
  readonly yellowness: number;
  /** Optical brightener: extra light thrown back at 440 nm under daylight, 0 none, 0.15 strong. */
  readonly brightener: number;
}

export interface Printer {
  /** Growth of the dots on the paper at half coverage, 0 to 0.3; light caught in the paper comes on top (n). */
  readonly dotGain: number;
  /** Yule-Nielsen n: 1 no light spreads in the paper, 2 it spreads fully. */
  readonly n: number;
  /** Optical density of solid black over paper. */
  readonly blackDensity: number;
  /** Colour of the black: positive is warmer. */
  readonly blackWarmth: number;
  /** Factor on the densities of cyan, magenta and yellow. */
  readonly strength: Triple;
  /** 'black': greys from black ink alone. 'composite': the printer mixes its greys from colours. */
  readonly greys: 'black' | 'composite';
}

/** Cyan, magenta, yellow, black, each 0 to 1. */
export type Coverage = readonly [number, number, number, number];

/** Total radiance factor of bare paper under a light; its brightener turns the light's violet into blue. */
export function paperUnder(paper: Paper, light: Spectrum): Spectrum {
  const glow = paper.brightener * Math.min(1.6, brightening(light) / 0.72);
  return spectrumOf(
    (nm) =>
      paper.level *
      (0.5 + 0.5 * sigmoid(nm, 404, 13)) *
      (1 - paper.yellowness * gaussian(nm, 430, 60)) *
      (1 + glow * gaussian(nm, 441, nm < 441 ? 14 : 26)),
  );
}

/* Densities of the solid colour inks, shaped like common process inks; invented. */
const CYAN = sumOfBands([
  { peakNm: 625, fwhmNm: 120, height: 1.2 },
  { peakNm: 705, fwhmNm: 110, height: 0.95 },
  { peakNm: 545, fwhmNm: 70, height: 0.16 },
  { peakNm: 400, fwhmNm: 60, height: 0.25 },
]);
const MAGENTA = sumOfBands([
  { peakNm: 540, fwhmNm: 78, height: 1.1 },
  { peakNm: 572, fwhmNm: 30, height: 0.35 },
  { peakNm: 500, fwhmNm: 70, height: 0.3 },
  { peakNm: 420, fwhmNm: 90, height: 0.32 },
]);
const YELLOW = sumOfBands([
  { peakNm: 425, fwhmNm: 110, height: 1.15 },
  { peakNm: 475, fwhmNm: 50, height: 0.45 },
]);

function blackDensity(printer: Printer): Spectrum {
  return spectrumOf((nm) => printer.blackDensity * (1 - (printer.blackWarmth * (nm - 550)) / 180));
}

/** Dots on paper: the share that is covered, for a share that was sent. */
export function grownDots(nominal: number, dotGain: number): number {
  const area = Math.min(1, Math.max(0, nominal));
  return Math.min(1, area + 4 * dotGain * area * (1 - area));
}

/**
 * The Neugebauer primaries weighted by Demichel's shares and blended after Yule and Nielsen:
 * J. A. C. Yule, W. J. Nielsen, TAGA Proc. 3:65, 1951; J. A. S. Viggiano, TAGA Proc. 647, 1985.
 * With one ink and n = 1 this is Murray and Davies (J. Franklin Inst. 221:721, 1936).
 */
export function printed(coverage: Coverage, printer: Printer, paper: Spectrum): Spectrum {
  const areas = coverage.map((nominal) => grownDots(nominal, printer.dotGain));
  const inks = [
    CYAN.map((d) => d * printer.strength[0]),
    MAGENTA.map((d) => d * printer.strength[1]),
    YELLOW.map((d) => d * printer.strength[2]),
    blackDensity(printer),
  ];
  const sum = new Float64Array(paper.length);
  for (let primary = 0; primary < 16; primary++) {
    const weight = areas.reduce((w, area, ink) => w * (primary & (1 << ink) ? area : 1 - area), 1);
    if (weight === 0) continue;
    for (let i = 0; i < sum.length; i++) {
      const density = inks.reduce((d, ink, k) => (primary & (1 << k) ? d + ink[i]! : d), 0);
      sum[i]! += weight * (paper[i]! * 10 ** -density) ** (1 / printer.n);
    }
  }
  return Array.from(sum, (value) => value ** printer.n);
}

/** What the printer's own colour tables assume about it. */
const NOMINAL_PRINTER: Printer = {
  dotGain: 0.08,
  n: 1.5,
  blackDensity: 1.35,
  blackWarmth: 0,
  strength: [1, 1, 1],
  greys: 'black',
};
const NOMINAL_PAPER = paperUnder({ level: 0.86, yellowness: 0, brightener: 0.06 }, D50);

/** Linear sRGB to XYZ, IEC 61966-2-1. */
const TO_XYZ: readonly Triple[] = [
  [0.4124, 0.3576, 0.1805],
  [0.2126, 0.7152, 0.0722],
  [0.0193, 0.1192, 0.9505],
];

function labOfSrgb(srgb: Triple): Triple {
  const linear = srgb.map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
  const [x, y, z] = TO_XYZ.map((row) => row.reduce((sum, weight, i) => sum + weight * linear[i]!, 0));
  return xyzToLab([x!, y!, z!], [0.9505, 1, 1.089]);
}

const separations = new Map<string, Coverage>();

/** The coverages a printer's driver sends for an sRGB colour: what matches it under D50, paper counting as white. */
export function separate(srgb: Triple): Coverage {
  const key = srgb.join();
  const known = separations.get(key);
  if (known) return known;
  const white = xyzOf(NOMINAL_PAPER, D50);
  const wanted = labOfSrgb(srgb);
  const misfit = (cmy: readonly number[]) => {
    const xyz = xyzOf(printed([cmy[0]!, cmy[1]!, cmy[2]!, 0], NOMINAL_PRINTER, NOMINAL_PAPER), D50);
    return xyzToLab(xyz, white).map((value, i) => value - wanted[i]!);
  };
  const found = solveCoverage(misfit, srgb);
  separations.set(key, found);
  return found;
}

/** Coverages of the nominal printer whose colour equals a Lab under D50: press inks that match only to the eye. */
export function matchInInk(lab: Triple): Coverage {
  const misfit = (cmy: readonly number[]) =>
    labOf(printed([cmy[0]!, cmy[1]!, cmy[2]!, 0], NOMINAL_PRINTER, NOMINAL_PAPER), D50).map(
      (value, i) => value - lab[i]!,
    );
  return solveCoverage(misfit, [lab[0] / 100, lab[0] / 100, lab[0] / 100]);
}

/* Densities of the clean pigments that a press room mixes its spot inks from; invented. */
const SPOT_PIGMENTS = [
  sumOfBands([{ peakNm: 632, fwhmNm: 128, height: 1 }]),
  sumOfBands([{ peakNm: 541, fwhmNm: 62, height: 1 }]),
  sumOfBands([{ peakNm: 437, fwhmNm: 84, height: 1 }]),
] as const;

const spotMixes = new Map<string, Triple>();

/**
 * A label's block in a spot ink, mixed to look like a Lab under D50 on common paper: it matches only to the eye.
 * @param paper what it is printed on
 */
export function spotInk(lab: Triple, paper: Spectrum): Spectrum {
  const key = lab.join();
  const mix = spotMixes.get(key) ?? mixSpot(lab);
  spotMixes.set(key, mix);
  return inSpot(mix, paper);
}

function mixSpot(lab: Triple): Triple {
  const misfit = (amounts: readonly number[]) =>
    labOf(inSpot(amounts as unknown as Triple, NOMINAL_PAPER), D50).map((value, i) => value - lab[i]!);
  const [red, green, blue] = solveCoverage(misfit, [lab[0] / 100, lab[0] / 100, lab[0] / 100]);
  return [red, green, blue];
}

function inSpot(amounts: Triple, paper: Spectrum): Spectrum {
  return paper.map(
    (value, i) => value * 10 ** -SPOT_PIGMENTS.reduce((sum, band, k) => sum + amounts[k]! * band[i]!, 0),
  );
}

/** Newton's method on three coverages, kept within 0 and 1. */
function solveCoverage(misfit: (cmy: readonly number[]) => number[], start: Triple): Coverage {
  let cmy = start.map((v) => Math.min(0.95, Math.max(0.02, 0.8 * (1 - v))));
  for (let pass = 0; pass < 12; pass++) {
    const at = misfit(cmy);
    const step = 1e-3;
    const columns = cmy.map((_, k) =>
      misfit(cmy.map((v, i) => (i === k ? v + step : v))).map((v, i) => (v - at[i]!) / step),
    );
    const change = solve3(columns as unknown as [Triple, Triple, Triple], at as unknown as Triple);
    cmy = cmy.map((v, i) => Math.min(1, Math.max(0, v - Math.max(-0.3, Math.min(0.3, change[i]!)))));
  }
  return [cmy[0]!, cmy[1]!, cmy[2]!, 0];
}

/** Cramer's rule; the matrix is given by its columns. */
function solve3([a, b, c]: readonly [Triple, Triple, Triple], y: Triple): Triple {
  const determinant = (p: Triple, q: Triple, r: Triple) =>
    p[0] * (q[1] * r[2] - q[2] * r[1]) - q[0] * (p[1] * r[2] - p[2] * r[1]) + r[0] * (p[1] * q[2] - p[2] * q[1]);
  const whole = determinant(a, b, c);
  return [determinant(y, b, c) / whole, determinant(a, y, c) / whole, determinant(a, b, y) / whole];
}
