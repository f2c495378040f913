/**
 * Correction of a photo's colours from the card's greys alone.
 *
 * What is known: every grey reflects the three channels alike, and its ink. What isn't: the camera's white
 * balance and tone curve, stray light, how the light falls off over the card, how much the printer's dots grow,
 * and whether it mixed the greys from colours. One fit finds all of them at once, each held by how far it usually
 * strays. The grey's reflectance follows Murray & Davies (J. Franklin Inst. 221:721, 1936) with a dot gain that is
 * largest at half coverage. Black ink alone can't change the tint from bare paper to half coverage and back to
 * solid black; mixed colours do, and so they are told from the light.
 */
import { NEUTRALS, SLOT } from '../card/geometry.ts';
import { CARD_HEIGHT_MM, CARD_WIDTH_MM } from '../card/geometry.ts';
import { fitWithPriors, type Unknown } from '../math/least-squares.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import { ciede2000 } from './difference.ts';
import { decodeSrgb, linearToLab, type Triple } from './lab.ts';

export interface NeutralCorrection {
  /** Colour of a place on the card as linear sRGB reflectance under D65, from its encoded photo colour. */
  toLinear(rgb: Triple, xMm: number, yMm: number): Triple;
  /** Root mean square misfit of the greys after correction, the tint of the print allowed for, CIEDE2000. */
  readonly residual: number;
  /** How far the greys are from grey: root mean square CIEDE2000 to the grey of the same lightness. */
  readonly castResidual: number;
  /** Change of light over the slot, per cent of its mean. */
  readonly shadingPercent: number;
  readonly print: GreyPrint & { readonly tint: readonly [red: number, blue: number] };
  /** The greys that aren't grey, by their ids, with their CIELAB chroma: the printer mixed them from colours. */
  readonly tinted: readonly TintedGrey[];
}

export interface TintedGrey {
  readonly id: string;
  readonly chroma: number;
}

/** How a card's greys came out of the printer. */
export interface GreyPrint {
  /** Dot gain at half coverage, 0 to 1. */
  readonly dotGain: number;
  /** Reflectance of solid black, 0 to 1. */
  readonly black: number;
  /** Red and blue against green in a grey of half coverage, ln; 0 in greys of black ink alone. */
  readonly tint?: readonly [red: number, blue: number] | undefined;
}

/** Reflectance of common plain paper, 0 to 1; from memory, unverified (typical 0.82-0.90). */
const PAPER_REFLECTANCE = 0.86;
/** Share of clipped pixels above which a patch tells nothing of its brightness. */
const MAX_CLIPPED = 0.1;
/** Misfit of one grey that is expected: mottle, paper, rounding (L* units). */
const GREY_SIGMA = 0.7;
/** Pivot of the tone polynomial, ln of linear light: a light grey. */
const PIVOT = Math.log(0.4);

/* Order of the unknowns; the priors say how far each usually strays. */
const UNKNOWNS: readonly Unknown[] = [
  ...[0, 0, 0].map((prior) => ({ prior, sigma: 1 })), // gain of each channel, ln
  { prior: 1, sigma: 0.5 }, // tone: slope in ln-ln
  { prior: 0, sigma: 0.25 }, // tone: bend
  { prior: 0, sigma: 0.1 }, // tone: twist
  { prior: 0, sigma: 0.03 }, // slope of red against green
  { prior: 0, sigma: 0.03 }, // slope of blue against green
  ...[0, 0, 0, 0, 0].map((prior) => ({ prior, sigma: 0.3 })), // light over the card: x, y, xx, xy, yy
  ...[0, 0, 0, 0].map((prior) => ({ prior, sigma: 0.06 })), // red and blue light against green: x, y each
  { prior: 0.005, sigma: 0.01 }, // stray light, linear
  { prior: 0.18, sigma: 0.04 }, // dot gain at half coverage
  { prior: 0.05, sigma: 0.02 }, // reflectance of solid black
  { prior: 0, sigma: 0.01 }, // tint of half coverage: red against green, ln
  { prior: 0, sigma: 0.01 }, // blue against green
];
/** Tint (ln) that black ink alone doesn't come to, and how far mixed greys may stray. */
const MIXED = 0.015;
const MIXED_SIGMA = 0.08;
/** Chroma from which a grey is named as off. */
const TINTED_CHROMA = 2;

/** The same unknowns for a card whose print is known: only paper wear is left. */
function knowing({ dotGain, black, tint = [0, 0] }: GreyPrint): Unknown[] {
  return [
    ...UNKNOWNS.slice(0, 18),
    { prior: dotGain, sigma: 0.004 },
    { prior: black, sigma: 0.002 },
    ...tint.map((prior) => ({ prior, sigma: 0.004 })),
  ];
}

interface Observation {
  readonly id: string;
  readonly linear: Triple;
  readonly x: number;
  readonly y: number;
  readonly ink: number;
}

/** A grey of known reflectance, which no printer made: of a chart, not of the card. */
export interface KnownGrey {
  readonly linear: Triple;
  /** -1 to 1 over the chart. */
  readonly x: number;
  readonly y: number;
  readonly reflectance: Triple;
}

/**
 * @param print how the card's greys were printed, where another photo of the same card has told
 * @throws RangeError when fewer than six greys can be used (most are clipped): refuse the photo first.
 */
export function fitNeutrals(card: CardSamples, print: GreyPrint | null = null): NeutralCorrection {
  const observations = observe(card);
  if (observations.length < 6) throw new RangeError('too few greys are usable');
  const weights = observations.map(({ ink }) => lightnessPerLog(ink) / GREY_SIGMA);
  const residualsOf = (p: readonly number[]) => {
    const residuals: number[] = [];
    observations.forEach((seen, i) => {
      const expected = Math.log(greyReflectance(seen.ink, p[18]!, p[19]!));
      for (const c of channels) {
        const off = logReflectance(seen.linear[c], c, seen, p) - expected - tintOf(seen.ink, c, p);
        residuals.push((off * weights[i]!) / toneSlope(seen.linear[c], c, p));
      }
    });
    return residuals;
  };
  const p = print ? fitWithPriors(residualsOf, knowing(print)).x : fitUnknownPrint(residualsOf);
  const correct = (linear: Triple, place: { x: number; y: number }): Triple => [
    reflectance(linear[0], 0, place, p),
    reflectance(linear[1], 1, place, p),
    reflectance(linear[2], 2, place, p),
  ];
  const misfits = observations.map((seen) => {
    const lab = linearToLab(correct(seen.linear, seen));
    const expected = channels.map((c) => greyReflectance(seen.ink, p[18]!, p[19]!) * Math.exp(tintOf(seen.ink, c, p)));
    return {
      id: seen.id,
      chroma: Math.hypot(lab[1], lab[2]),
      whole: ciede2000(lab, linearToLab(expected as unknown as Triple)),
      cast: ciede2000(lab, [lab[0], 0, 0]),
    };
  });
  return {
    toLinear: (rgb, xMm, yMm) => correct(decode(rgb), placeOf(xMm, yMm)),
    residual: rootMeanSquare(misfits.map((misfit) => misfit.whole)),
    castResidual: rootMeanSquare(misfits.map((misfit) => misfit.cast)),
    shadingPercent: shadingOverSlot(p),
    print: { dotGain: p[18]!, black: p[19]!, tint: [p[20]!, p[21]!] },
    tinted: misfits.filter(({ chroma }) => chroma > TINTED_CHROMA).map(({ id, chroma }) => ({ id, chroma })),
  };
}

/** The same fit to greys of known reflectance; returns the correction of a linear colour at a place. */
export function fitKnownGreys(
  greys: readonly KnownGrey[],
): (linear: Triple, place: { x: number; y: number }) => Triple {
  const { x: p } = fitWithPriors(
    (at) =>
      greys.flatMap((grey) =>
        channels.map((c) => {
          const off = Math.log(reflectance(grey.linear[c], c, grey, at) / grey.reflectance[c]);
          return (off * lightnessPerLogOf(grey.reflectance[1])) / toneSlope(grey.linear[c], c, at) / GREY_SIGMA;
        }),
      ),
    UNKNOWNS,
  );
  return (linear, place) => channels.map((c) => reflectance(linear[c], c, place, p)) as unknown as Triple;
}

/** Greys are taken for black ink alone; only where they can't be, a mixture may explain them. */
function fitUnknownPrint(residualsOf: (p: readonly number[]) => number[]): number[] {
  const { x } = fitWithPriors(residualsOf, UNKNOWNS);
  if (Math.max(Math.abs(x[20]!), Math.abs(x[21]!)) < MIXED) return x;
  const mixed = UNKNOWNS.map((unknown, i) => (i < 20 ? unknown : { prior: 0, sigma: MIXED_SIGMA }));
  return fitWithPriors(residualsOf, mixed).x;
}

/** Tint of a mixed grey against green, ln: most at half coverage, none in bare paper and solid black. */
function tintOf(ink: number, channel: 0 | 1 | 2, p: readonly number[]): number {
  return channel === 1 ? 0 : 4 * ink * (1 - ink) * p[channel === 0 ? 20 : 21]!;
}

const channels = [0, 1, 2] as const;

function observe(card: CardSamples): Observation[] {
  const inkOf = new Map(NEUTRALS.map((neutral) => [neutral.id, neutral.ink]));
  const usable = (sample: PatchSample, ink: number | undefined): Observation[] =>
    ink === undefined || sample.clipped > MAX_CLIPPED || sample.count === 0
      ? []
      : [{ id: sample.id, linear: decode(sample.rgb), ink, ...placeOf(sample.xMm, sample.yMm) }];
  return [
    ...card.neutrals.flatMap((sample) => usable(sample, inkOf.get(sample.id))),
    ...card.paper.flatMap((sample) => usable(sample, 0)),
    ...card.slot.flatMap((sample) => usable(sample, SLOT.ink)),
  ];
}

function decode(rgb: Triple): Triple {
  return [decodeSrgb(rgb[0]), decodeSrgb(rgb[1]), decodeSrgb(rgb[2])];
}

/** Card millimetres to -1..1 about the middle. */
function placeOf(xMm: number, yMm: number): { x: number; y: number } {
  return { x: (2 * xMm) / CARD_WIDTH_MM - 1, y: (2 * yMm) / CARD_HEIGHT_MM - 1 };
}

function greyReflectance(ink: number, dotGain: number, black: number): number {
  const area = Math.min(1, ink + 4 * dotGain * ink * (1 - ink));
  return PAPER_REFLECTANCE * (1 - area) + Math.max(0.005, black) * area;
}

function reflectance(
  linear: number,
  channel: 0 | 1 | 2,
  place: { x: number; y: number },
  p: readonly number[],
): number {
  return Math.exp(logReflectance(linear, channel, place, p));
}

function logReflectance(
  linear: number,
  channel: 0 | 1 | 2,
  place: { x: number; y: number },
  p: readonly number[],
): number {
  const w = Math.log(Math.max(1e-4, linear - p[17]!)) - PIVOT;
  const channelSlope = channel === 0 ? p[6]! : channel === 2 ? p[7]! : 0;
  const tone = (p[3]! + channelSlope) * w + p[4]! * w * w + p[5]! * w * w * w;
  return p[channel]! + tone + PIVOT - lightAt(place, channel, p);
}

/**
 * Rise of ln reflectance with ln light. Misfits are divided by it, and so counted as light that was seen:
 * counted as reflectance, a fit could make them all small by squeezing the whole scale together.
 */
function toneSlope(linear: number, channel: 0 | 1 | 2, p: readonly number[]): number {
  const w = Math.log(Math.max(1e-4, linear - p[17]!)) - PIVOT;
  const channelSlope = channel === 0 ? p[6]! : channel === 2 ? p[7]! : 0;
  return Math.max(0.2, p[3]! + channelSlope + 2 * p[4]! * w + 3 * p[5]! * w * w);
}

/** L* per ln of reflectance for a grey as usually printed. */
function lightnessPerLog(ink: number): number {
  return lightnessPerLogOf(greyReflectance(ink, UNKNOWNS[18]!.prior, UNKNOWNS[19]!.prior));
}

/** L* = 116 cbrt(Y) - 16 (CIE 015:2018), per ln of Y. */
function lightnessPerLogOf(luminance: number): number {
  return (116 / 3) * Math.cbrt(luminance);
}

/** ln of the light at a place, against the middle of the card. */
function lightAt({ x, y }: { x: number; y: number }, channel: 0 | 1 | 2, p: readonly number[]): number {
  const common = p[8]! * x + p[9]! * y + p[10]! * x * x + p[11]! * x * y + p[12]! * y * y;
  if (channel === 0) return common + p[13]! * x + p[14]! * y;
  if (channel === 2) return common + p[15]! * x + p[16]! * y;
  return common;
}

function shadingOverSlot(p: readonly number[]): number {
  const light = [];
  for (let i = 0; i <= 4; i++) {
    for (let j = 0; j <= 2; j++) {
      const place = placeOf(SLOT.xMm + (SLOT.widthMm * i) / 4, SLOT.yMm + (SLOT.heightMm * j) / 2);
      light.push(Math.exp(lightAt(place, 1, p)));
    }
  }
  const mean = light.reduce((sum, value) => sum + value, 0) / light.length;
  return (100 * (Math.max(...light) - Math.min(...light))) / mean;
}

function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}
