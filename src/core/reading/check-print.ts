/** What photos of the empty card say about a print and a phone, before any strip is read with them. */
import { ANCHORS, NEUTRALS } from '../card/geometry.ts';
import { cardPairs } from '../colour/anchors.ts';
import { fitColourMap } from '../colour/colour-map.ts';
import { decodeSrgb, linearToLab, type Triple } from '../colour/lab.ts';
import { fitNeutrals, type NeutralCorrection } from '../colour/neutrals.ts';
import type { CardSamples, PatchSample } from '../samples.ts';
import { curveThrough } from '../scale/curve.ts';
import type { StripScale } from '../scale/schema.ts';

export type Verdict = 'good' | 'doubtful' | 'bad';

export interface Finding {
  readonly what: 'rule' | 'greys' | 'patches' | 'evenness' | 'gloss';
  readonly verdict: Verdict;
  /** Of the rule: mm; greys and evenness: CIEDE2000; patches: how many are off; gloss: share of a patch's pixels. */
  readonly value: number;
}

export interface PrintCheck {
  readonly findings: readonly Finding[];
  /** How much the patches still differ between two of the photos; null with fewer than two, or without patches. */
  readonly left: {
    /** Root mean square CIEDE2000, each patch left out of the map that it is judged by; and without any map. */
    readonly deltaE: number;
    readonly withoutMap: number;
  } | null;
}

/** By what is printed on the card: half a millimetre of fifty. */
const RULE_MM = 50;
const RULE_OFF_MM = [0.5, 1] as const;
/** As readings doubt greys, and refuse them. */
const GREYS_OFF = [1.5, 8] as const;
/** Misfit of the greys once light and print are fitted: ordinary prints stay below 1; set on simulated printers. */
const UNEVEN = [1.5, 3] as const;
/** Colour patches whose hue is far from what was sent to the printer. */
const PATCHES_OFF = [1, 5] as const;
/** Share of a patch's pixels left out as glints. */
const GLOSSY = [0.12, 0.3] as const;

/** A patch of any printer keeps within these of the colour that was sent: hue in degrees, chroma as a share. */
const MAX_HUE_OFF = 50;
const CHROMA_SHARES = [0.3, 2] as const;
/** Reflectance of common paper; see colour/neutrals.ts. */
const PAPER = 0.86;

/**
 * @param cards of the same print, in different places
 * @param ruleMm what a ruler says of the printed rule; null where it wasn't held
 * @throws RangeError when most greys of a card are clipped
 */
export function checkPrint(cards: readonly CardSamples[], ruleMm: number | null): PrintCheck {
  const corrections = cards.map((card) => fitNeutrals(card));
  const worst = (values: readonly number[]) => Math.max(...values);
  const findings: Finding[] = [
    finding('greys', worst(corrections.map(({ castResidual }) => castResidual)), GREYS_OFF),
    finding('evenness', worst(corrections.map(({ residual }) => residual)), UNEVEN),
    finding('gloss', worst(cards.map(glossOf)), GLOSSY),
  ];
  const isColour = cards.some(({ anchors }) => anchors.length > 0);
  if (isColour) {
    // In every photo: one may lie in a light that turns a hue.
    const off = ANCHORS.filter(({ id }) => cards.every((card, i) => isOff(card, corrections[i]!, id)));
    findings.push(finding('patches', off.length, PATCHES_OFF));
  }
  if (ruleMm !== null) findings.unshift({ ...finding('rule', Math.abs(ruleMm - RULE_MM), RULE_OFF_MM), value: ruleMm });
  return { findings, left: leftBetween(cards, corrections) };
}

function finding(what: Finding['what'], value: number, [doubtful, bad]: readonly [number, number]): Finding {
  return { what, value, verdict: value > bad ? 'bad' : value > doubtful ? 'doubtful' : 'good' };
}

/** Of the solid and dark patches, which mirror most. */
function glossOf({ neutrals }: CardSamples): number {
  const dark = new Set(NEUTRALS.filter(({ ink }) => ink >= 0.7).map(({ id }) => id));
  return Math.max(0, ...neutrals.filter(({ id }) => dark.has(id)).map(({ rejected }) => rejected));
}

const SENT = new Map(
  ANCHORS.map(({ id, srgb }) => [id, linearToLab(srgb.map((level) => PAPER * decodeSrgb(level)) as unknown as Triple)]),
);

function isOff(card: CardSamples, correction: NeutralCorrection, id: string): boolean {
  const seen = card.anchors.find((sample) => sample.id === id);
  if (!seen) return false;
  const [, a, b] = linearToLab(correction.toLinear(seen.rgb, seen.xMm, seen.yMm));
  const [, sentA, sentB] = SENT.get(id)!;
  const turn = Math.abs(Math.atan2(a * sentB - b * sentA, a * sentA + b * sentB)) * (180 / Math.PI);
  const share = Math.hypot(a, b) / Math.hypot(sentA, sentB);
  return turn > MAX_HUE_OFF || share < CHROMA_SHARES[0] || share > CHROMA_SHARES[1];
}

/** Every photo led to every other, as a reading is led to the photo that taught its scale. */
function leftBetween(cards: readonly CardSamples[], corrections: readonly NeutralCorrection[]): PrintCheck['left'] {
  const pairs = cards.flatMap((card, i) =>
    cards.flatMap((other, j) => (i === j ? [] : between(card, corrections[i]!, other, corrections[j]!))),
  );
  if (pairs.length === 0) return null;
  const mean = (of: (pair: (typeof pairs)[number]) => number) =>
    Math.sqrt(pairs.reduce((sum, pair) => sum + of(pair) ** 2, 0) / pairs.length);
  return { deltaE: mean(({ residual }) => residual), withoutMap: mean(({ residualWithout }) => residualWithout) };
}

/** Fewer patches than this say nothing. */
const MIN_PATCHES = 9;

function between(card: CardSamples, correction: NeutralCorrection, other: CardSamples, to: NeutralCorrection) {
  const linearBy =
    ({ toLinear }: NeutralCorrection) =>
    ({ rgb, xMm, yMm }: PatchSample) =>
      toLinear(rgb, xMm, yMm);
  const known = (samples: readonly PatchSample[]) =>
    Object.fromEntries(samples.map((sample) => [sample.id, linearBy(to)(sample)]));
  const there = { anchors: known(other.anchors), neutrals: known(other.neutrals) };
  const { anchors, neutrals } = cardPairs(card, there, linearBy(correction));
  return anchors.length < MIN_PATCHES ? [] : [fitColourMap(anchors, neutrals)];
}

/** The median of forty simulated phones that turn colours by hue, in three everyday lights each. */
const USUALLY_LEFT = 2;
/** Pads lie among the patches, so that they share about half of what a left-out patch shows; by judgement, not measured. */
const PAD_SHARE = 0.5;
const MAX_NOISE = 2;

/** One standard deviation by which this phone's readings are less sure than others', CIEDE2000; 0 for one as sure. */
export function noiseOf({ left }: Pick<PrintCheck, 'left'>): number {
  if (!left) return 0;
  return Math.min(MAX_NOISE, PAD_SHARE * Math.sqrt(Math.max(0, left.deltaE ** 2 - USUALLY_LEFT ** 2)));
}

/** Between neighbouring blocks of a scale, the median over its pads, CIEDE2000. */
export function usualStep({ pads }: Pick<StripScale, 'pads'>): number {
  const steps = pads
    .flatMap((pad) => {
      const { positions } = curveThrough(pad);
      return positions.slice(1).map((position, i) => position - positions[i]!);
    })
    .sort((one, other) => one - other);
  return steps[steps.length >> 1]!;
}

/** What may leave the device, if its owner sends it: colours of the card alone, no picture, time, place, device or mark. */
export interface PrintCheckFile extends PrintCheck {
  readonly format: 'dipwise-print-check';
  readonly version: 1;
  readonly photos: readonly {
    readonly cardVersion: number | null;
    readonly variant: CardSamples['variant'];
    /** Encoded RGB 0 to 1, by the patches' ids. */
    readonly colours: Readonly<Record<string, Triple>>;
  }[];
}

export function printCheckFile(cards: readonly CardSamples[], check: PrintCheck): PrintCheckFile {
  const rounded = (rgb: Triple) => rgb.map((level) => Number(level.toFixed(4))) as unknown as Triple;
  return {
    format: 'dipwise-print-check',
    version: 1,
    ...check,
    photos: cards.map(({ version, variant, neutrals, anchors, paper }) => ({
      cardVersion: version,
      variant,
      colours: Object.fromEntries([...neutrals, ...anchors, ...paper].map(({ id, rgb }) => [id, rounded(rgb)])),
    })),
  };
}
