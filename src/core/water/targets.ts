/**
 * Where each reading of a home pool should lie, by the kind of pool. Defaults with their sources; all editable.
 * mg/L (alkalinity and hardness as CaCO3), pH in pH.
 */
import * as z from 'zod';
import { COMMON_PRACTICE, fromMemory, read, readElsewhere, type Provenance } from '../provenance.ts';

export const TARGET_IDS = [
  'free-chlorine',
  'combined-chlorine',
  'ph',
  'total-alkalinity',
  'calcium-hardness',
  'cyanuric-acid',
  'salt',
  'saturation-index',
] as const;
export type TargetId = (typeof TARGET_IDS)[number];

export interface TargetSpan {
  readonly low: number;
  /** What a correction steers for; low <= aim <= high. */
  readonly aim: number;
  readonly high: number;
  /** Beyond this, what leaves only with the water is worth replacing water for; at least `high`. */
  readonly limit: number;
}

export interface Target extends TargetSpan {
  /** True when the owner set it. */
  readonly edited: boolean;
  readonly lowFrom: Provenance;
  readonly aimFrom: Provenance;
  readonly highFrom: Provenance;
}

export type Targets = Readonly<Record<TargetId, Target>>;

export const SURFACES = ['vinyl', 'plaster', 'fibreglass', 'tile'] as const;
export type Surface = (typeof SURFACES)[number];

/** How the pool gets its chlorine from day to day. */
export const CHLORINATIONS = ['chlorinator', 'hypochlorite', 'trichlor', 'dichlor'] as const;
export type Chlorination = (typeof CHLORINATIONS)[number];

export interface PoolKind {
  readonly surface: Surface;
  readonly chlorination: Chlorination;
  /** Kept with cyanuric acid against the sun. */
  readonly stabilised: boolean;
  /** Small and hot: 'spa'. */
  readonly kind?: 'pool' | 'spa' | undefined;
}

const MAHC = 'CDC Model Aquatic Health Code, 2018 (trade report of January 2021)';
const MONTANA = 'Administrative Rules of Montana 37.115.1308';
const STANDARD = 'ANSI/APSP/ICC-11, 2019, page 34';
const RATIO = 'Falk et al., Water 2019, 11, 1314: CYA to free chlorine at most 20 (the figure itself from memory)';

/** mg/L of stabilizer for each mg/L of free chlorine, at most: Falk et al. 2019, figure from memory, unverified. */
export const CYA_PER_CHLORINE = 20;
/** Nobody swims above this: CDC Model Aquatic Health Code 2018, read in a trade report. */
export const CHLORINE_LIMIT = 10;
/** mg/L; above it, US labels commonly keep people out. From memory, unverified. */
const LABEL_LIMIT = { pool: 4, spa: 5 } as const;

export function labelLimit({ pool }: { readonly pool: { readonly kind?: 'pool' | 'spa' | undefined } }): number {
  return LABEL_LIMIT[pool.kind ?? 'pool'];
}

/** Above the least, so that a day's use doesn't take it below. Common practice, no source. */
const CHLORINE_RESERVE = { stabilised: 2, bare: 1 } as const;

/**
 * Free chlorine scaled to the stabilizer: at least a twentieth of it and never below the code's own least, plus what a
 * day uses up. The span ends where it would leave the code's upper limit.
 */
export function chlorineTarget(cyanuricAcid: number): Target {
  const stabilised = cyanuricAcid > 0;
  const byRatio = cyanuricAcid / CYA_PER_CHLORINE;
  const least = stabilised ? 2 : 1;
  const low = Math.max(least, byRatio);
  const reserve = stabilised ? CHLORINE_RESERVE.stabilised : CHLORINE_RESERVE.bare;
  const clip = (value: number) => Math.max(low, Math.min(CHLORINE_LIMIT, value));
  return {
    low,
    aim: clip(low + reserve),
    high: clip(low + 2 * reserve),
    limit: Math.max(low, CHLORINE_LIMIT),
    edited: false,
    lowFrom: byRatio > least ? fromMemory(RATIO) : readElsewhere(MAHC),
    aimFrom: COMMON_PRACTICE,
    highFrom: COMMON_PRACTICE,
  };
}

/** At least 3 mg/L, CDC healthy-swimming advice, read as quoted; the label's limit above. */
function spaChlorineTarget(cyanuricAcid: number): Target {
  const low = Math.max(3, cyanuricAcid / CYA_PER_CHLORINE);
  const top = Math.max(low, LABEL_LIMIT.spa);
  const from = readElsewhere('CDC healthy-swimming advice, hot tubs');
  return target([low, (low + top) / 2, top, Math.max(low, CHLORINE_LIMIT)], from, COMMON_PRACTICE, COMMON_PRACTICE);
}

function target(
  [low, aim, high, limit]: readonly [number, number, number, number],
  lowFrom: Provenance,
  aimFrom: Provenance,
  highFrom: Provenance,
): Target {
  return { low, aim, high, limit, edited: false, lowFrom, aimFrom, highFrom };
}

/** pH drifts up where chlorine comes from a cell or from hypochlorite, so the aim is in the lower half. */
function phTarget(chlorination: Chlorination): Target {
  const aim = chlorination === 'chlorinator' || chlorination === 'hypochlorite' ? 7.4 : 7.5;
  return target([7.2, aim, 7.8, 7.8], readElsewhere(MAHC), read(`${MONTANA}, ideal 7.4-7.6`), readElsewhere(MAHC));
}

/**
 * Lower for chlorinators and hypochlorite, where alkalinity only drives the pH up; higher for trichlor and dichlor,
 * which use it up.
 */
function alkalinityTarget(chlorination: Chlorination): Target {
  switch (chlorination) {
    case 'chlorinator':
      return target([60, 75, 100, 180], read(STANDARD), COMMON_PRACTICE, read(`${MONTANA}, hypochlorites`));
    case 'hypochlorite':
      return target([60, 80, 100, 180], read(STANDARD), read(`${MONTANA}, ideal from 80`), read(MONTANA));
    default:
      return target([80, 100, 120, 180], COMMON_PRACTICE, read(`${MONTANA}, ideal from 100`), read(MONTANA));
  }
}

/** Plaster and grout give up their calcium to soft water; a liner or gel coat has none to give. */
function hardnessTarget({ surface, kind }: PoolKind): Target {
  if (kind === 'spa') {
    return target([100, 150, 250, 800], read(`${STANDARD}, spa`), read(`${STANDARD}, spa`), read(`${STANDARD}, spa`));
  }
  if (surface === 'plaster' || surface === 'tile') {
    return target([200, 250, 400, 1000], read(`${STANDARD}, ideal`), COMMON_PRACTICE, read(`${STANDARD}, ideal`));
  }
  return target([150, 175, 400, 1000], read(`${STANDARD}, minimum`), COMMON_PRACTICE, read(`${STANDARD}, ideal`));
}

function stabilizerTarget({ chlorination, stabilised, kind }: PoolKind): Target {
  // The heat of a spa needs its chlorine unhindered, and mostly there is no sun on it.
  if (kind === 'spa') return target([0, 0, 50, 90], COMMON_PRACTICE, COMMON_PRACTICE, COMMON_PRACTICE);
  if (!stabilised) return target([0, 0, 50, 90], COMMON_PRACTICE, COMMON_PRACTICE, read(`${MONTANA}, outdoor`));
  const low = read('Anne Arundel County MD code');
  if (chlorination === 'chlorinator') return target([30, 50, 70, 90], low, COMMON_PRACTICE, COMMON_PRACTICE);
  return target([30, 40, 50, 90], low, COMMON_PRACTICE, read(`${MONTANA}, outdoor`));
}

/** Around what most cells want; the maker of the unit overrules. Without a chlorinator only too much matters. */
function saltTarget(chlorination: Chlorination): Target {
  if (chlorination === 'chlorinator') {
    return target([2700, 3000, 3400, 4500], COMMON_PRACTICE, COMMON_PRACTICE, COMMON_PRACTICE);
  }
  return target([0, 0, 3000, 4500], COMMON_PRACTICE, COMMON_PRACTICE, COMMON_PRACTICE);
}

/** A liner or gel coat has no calcium for the water to dissolve, so its lower end is the older, wider band's. */
function indexTarget(surface: Surface): Target {
  const course = read('pool-operator certification course page');
  if (surface === 'plaster' || surface === 'tile') return target([-0.3, 0, 0.3, 0.5], course, course, course);
  return target([-0.5, 0, 0.3, 0.5], read('public copies, Langelier table'), course, course);
}

/**
 * @param cyanuricAcid as measured, or what is aimed at where it isn't known, mg/L
 * @param edited what the owner changed
 */
export function targetsFor(kind: PoolKind, cyanuricAcid: number, edited: EditedTargets = {}): Targets {
  const defaults: Targets = {
    'free-chlorine': kind.kind === 'spa' ? spaChlorineTarget(cyanuricAcid) : chlorineTarget(cyanuricAcid),
    'combined-chlorine': target([0, 0, 0.5, 0.5], read(MONTANA), read(MONTANA), read(MONTANA)),
    ph: phTarget(kind.chlorination),
    'total-alkalinity': alkalinityTarget(kind.chlorination),
    'calcium-hardness': hardnessTarget(kind),
    'cyanuric-acid': stabilizerTarget(kind),
    salt: saltTarget(kind.chlorination),
    'saturation-index': indexTarget(kind.surface),
  };
  const withEdits = TARGET_IDS.map((id): [TargetId, Target] => {
    const change = edited[id];
    if (!change) return [id, defaults[id]];
    return [id, { ...defaults[id], ...change, limit: Math.max(defaults[id].limit, change.high), edited: true }];
  });
  return Object.fromEntries(withEdits) as Record<TargetId, Target>;
}

/** What an owner may set for each reading, at the very most; keeps slips of the keyboard out of the plan. */
const EDITABLE: Record<TargetId, readonly [number, number]> = {
  'free-chlorine': [0.2, CHLORINE_LIMIT],
  'combined-chlorine': [0, 1],
  ph: [6.8, 8],
  'total-alkalinity': [20, 250],
  'calcium-hardness': [0, 1500],
  'cyanuric-acid': [0, 100],
  salt: [0, 25_000],
  'saturation-index': [-1, 1],
};

function spanSchema([least, most]: readonly [number, number]) {
  const end = () => z.number().min(least).max(most);
  return z
    .strictObject({ low: end(), aim: end(), high: end() })
    .refine(({ low, aim, high }) => low <= aim && aim <= high);
}

export const targetsSchema = z
  .strictObject({
    'free-chlorine': spanSchema(EDITABLE['free-chlorine']),
    'combined-chlorine': spanSchema(EDITABLE['combined-chlorine']),
    ph: spanSchema(EDITABLE.ph),
    'total-alkalinity': spanSchema(EDITABLE['total-alkalinity']),
    'calcium-hardness': spanSchema(EDITABLE['calcium-hardness']),
    'cyanuric-acid': spanSchema(EDITABLE['cyanuric-acid']),
    salt: spanSchema(EDITABLE.salt),
    'saturation-index': spanSchema(EDITABLE['saturation-index']),
  })
  .partial();

export type EditedTargets = z.output<typeof targetsSchema>;
