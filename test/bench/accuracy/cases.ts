/** The lines of the accuracy table: who teaches, who reads, in which light. */
import { FAMILY_NAMES, type FamilyName } from '../../studio/camera/sensors.ts';
import type { Random } from '../../studio/random.ts';
import { daylight } from '../../studio/spectra/daylight.ts';
import type { Paper } from '../../studio/spectra/inks.ts';
import { ledWhite } from '../../studio/spectra/lights.ts';
import type { Spectrum } from '../../studio/spectra/wavelengths.ts';
import { GARDEN_FOUR, type StudioStrip, STRIPS } from '../../studio/strips/strips.ts';
import { type Cause, EVERYTHING } from './causes.ts';
import { everydayLight, lamp, type Owner, unfamiliarLight } from './world.ts';

/*
 * Priors, ridges, limits and the widths of intervals were set on the first three camera families, the everyday
 * lights and the two practice strips. The other two families, the unfamiliar lights and the garden strip are the
 * report set: nothing was ever set on them.
 */
export const CALIBRATION_PHONES: readonly FamilyName[] = FAMILY_NAMES.slice(0, 3);
export const REPORT_PHONES: readonly FamilyName[] = FAMILY_NAMES.slice(3);

export interface Case {
  readonly name: string;
  readonly families: readonly FamilyName[];
  readonly strips: readonly StudioStrip[];
  readonly lightOf: (random: Random) => Spectrum;
  /** Lights of the teaching photos, one after the other; null: as the reading's. */
  readonly taughtIn: readonly ((random: Random) => Spectrum)[] | null;
  /** Teaching photos; 0 reads with the practice scale. */
  readonly lights: number;
  readonly samePhone: boolean;
  readonly sameCard: boolean;
  /** What another print was photographed beside, so that the scale knows it; null: nothing. */
  readonly wayBack: 'chart' | 'strip' | null;
  /** Read by the greys alone although the scale was taught with anchors. */
  readonly greysAlone: boolean;
  /** The scale remembers the colour of a dry strip's plastic. */
  readonly base: boolean;
  readonly causes: ReadonlySet<Cause>;
  /** A change to what the owner prints. */
  readonly print: (owner: Owner, random: Random) => Owner;
}

export const EVERYDAY: Case = {
  name: 'taught in two lights',
  families: CALIBRATION_PHONES,
  strips: STRIPS,
  lightOf: everydayLight,
  taughtIn: null,
  lights: 2,
  samePhone: true,
  sameCard: true,
  wayBack: null,
  greysAlone: false,
  base: true,
  causes: EVERYTHING,
  print: (owner) => owner,
};

const WARM_LAMP = (random: Random) => lamp(ledWhite('warm', random.about(0, 2)));
const OPEN_SHADE = (random: Random) => daylight(random.between(5500, 8500));

const TEACHINGS = {
  'open shade': [OPEN_SHADE],
  'open shade on two days': [OPEN_SHADE, OPEN_SHADE],
  'open shade and a warm lamp': [OPEN_SHADE, WARM_LAMP],
  'open shade, a warm lamp and another day’s shade': [OPEN_SHADE, WARM_LAMP, OPEN_SHADE],
  'a warm lamp': [WARM_LAMP],
  'a warm lamp, then open shade': [WARM_LAMP, OPEN_SHADE],
} as const;

/** Is another teaching photo ever worse than one fewer? Read in everyday light, in open shade, and under a warm lamp. */
export const LIGHT_CASES: readonly Case[] = Object.entries({
  'everyday light': everydayLight,
  'open shade': OPEN_SHADE,
  'a warm lamp': WARM_LAMP,
}).flatMap(([reading, lightOf]) =>
  Object.entries(TEACHINGS).map(([teaching, taughtIn]) => ({
    ...EVERYDAY,
    name: `taught in ${teaching}; read in ${reading}`,
    lightOf,
    taughtIn,
    lights: taughtIn.length,
  })),
);

const unknown = { families: REPORT_PHONES, lightOf: unfamiliarLight } as const;

const CHROMAS = [1, 2, 3, 4, 5, 6, 9, 12];
const DOT_GAINS = [0.05, 0.1, 0.15, 0.2, 0.25, 0.3];

/* Cream, recycled and strongly whitened papers: levels from memory, unverified. */
const PAPERS: Readonly<Record<string, Paper>> = {
  'cream paper': { level: 0.84, yellowness: 0.14, brightener: 0 },
  'recycled paper': { level: 0.7, yellowness: 0.08, brightener: 0.02 },
  'bright paper with much whitener': { level: 0.9, yellowness: 0, brightener: 0.25 },
};

const POOR_PRINTS: readonly (readonly [name: string, print: Case['print']])[] = [
  ['ordinary prints', EVERYDAY.print],
  ['card in black only', (owner) => ({ ...owner, variant: 'black' })],
  ...CHROMAS.map((chroma): [string, Case['print']] => [
    `greys mixed from colours, off by chroma ${chroma}`,
    (owner, random) => ({ ...owner, cast: { chroma, hueDegrees: random.between(0, 360) } }),
  ]),
  // With n = 1 (no light spreading in the paper) the growth of the dots is the whole gain at half coverage.
  ...DOT_GAINS.map((dotGain): [string, Case['print']] => [
    `dot gain ${Math.round(100 * dotGain)} %`,
    (owner) => ({ ...owner, printer: { ...owner.printer, dotGain, n: 1 } }),
  ]),
  ...Object.entries(PAPERS).map(([name, paper]): [string, Case['print']] => [name, (owner) => ({ ...owner, paper })]),
];

/** Each poor print read with the practice scale and with a scale taught in two lights beside that print. */
export const PRINTER_CASES: readonly Case[] = [0, 2].flatMap((lights) =>
  POOR_PRINTS.map(([name, print]) => ({
    ...EVERYDAY,
    name: `${lights > 0 ? 'taught' : 'practice scale'}, ${name}`,
    lights,
    print,
  })),
);

const UNMARKED: Case['print'] = (owner) => ({ ...owner, printMark: null });

export const CASES: readonly Case[] = [
  { ...EVERYDAY, name: 'practice scale, greys alone', lights: 0 },
  { ...EVERYDAY, name: 'taught in two lights, greys alone', greysAlone: true },
  { ...EVERYDAY, name: 'taught in one light', lights: 1 },
  { ...EVERYDAY, name: 'taught in two lights' },
  { ...EVERYDAY, name: 'taught in three lights', lights: 3 },
  { ...EVERYDAY, name: 'two lights, no photo of a dry strip', base: false },
  { ...EVERYDAY, name: 'two lights, another phone', samePhone: false },
  { ...EVERYDAY, name: 'two lights, another print of the card', sameCard: false },
  { ...EVERYDAY, name: 'two lights, another print and phone', sameCard: false, samePhone: false },
  { ...EVERYDAY, name: 'two lights, another print, then the chart beside it', sameCard: false, wayBack: 'chart' },
  { ...EVERYDAY, name: 'two lights, another print, then a known strip beside it', sameCard: false, wayBack: 'strip' },
  { ...EVERYDAY, name: 'two lights, cards without marks', print: UNMARKED },
  { ...EVERYDAY, name: 'two lights, another print, cards without marks', sameCard: false, print: UNMARKED },
  { ...EVERYDAY, ...unknown, name: 'report set: practice scale, greys alone', lights: 0 },
  { ...EVERYDAY, ...unknown, name: 'report set: one light', lights: 1 },
  { ...EVERYDAY, ...unknown, name: 'report set: two lights' },
  { ...EVERYDAY, ...unknown, name: 'report set: two lights, another phone', samePhone: false },
  { ...EVERYDAY, ...unknown, name: 'report set: two lights, another strip', strips: [GARDEN_FOUR] },
];
