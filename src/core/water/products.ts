/** The products on a pool owner's shelf, as kinds of substance: no brands. */
import type { CautionCode } from './cautions.ts';
import { MOLAR_MASS } from './constants.ts';
import type { ReagentId } from './moves/reagents.ts';
import { dryChlorineMmolPerGram, hydrochloricMmolPerMl, hypochloriteMmolPerMl, mmolPerGram } from './strength.ts';

export const PRODUCT_IDS = [
  'hydrochloric-acid',
  'sodium-bisulfate',
  'sodium-bicarbonate',
  'soda-ash',
  'borax',
  'calcium-chloride',
  'salt',
  'cyanuric-acid',
  'sodium-hypochlorite',
  'household-bleach',
  'calcium-hypochlorite',
  'dichlor',
  'trichlor',
  'sodium-thiosulfate',
] as const;
export type ProductId = (typeof PRODUCT_IDS)[number];

/** What a product is bought for. */
export type Purpose =
  | 'lower-ph'
  | 'raise-alkalinity'
  | 'raise-ph'
  | 'raise-hardness'
  | 'raise-salt'
  | 'raise-stabilizer'
  | 'raise-chlorine'
  | 'lower-chlorine';

/** What the percentage on the label counts. */
export type StrengthBasis =
  /** Mass of the named substance in 100 g. */
  | 'by-mass'
  /** Grams of available chlorine in 100 mL ("trade per cent"). */
  | 'trade-percent'
  /** Mass of sodium hypochlorite in 100 g. */
  | 'hypochlorite-by-mass'
  /** Grams of available chlorine in 100 g. */
  | 'available-chlorine';

/** How it goes into the water. */
export type HowCode =
  | 'pour-at-the-return'
  | 'broadcast-over-the-deep-end'
  | 'dissolve-in-bucket'
  | 'dissolve-small-portions-in-cold-water'
  | 'broadcast-and-brush'
  | 'as-the-label-says'
  | 'sock-at-the-return'
  | 'in-a-floating-feeder';

export interface Product {
  readonly id: ProductId;
  readonly purpose: Purpose;
  readonly form: 'liquid' | 'solid';
  readonly basis: StrengthBasis;
  /** Usual strengths on labels, the commonest first. */
  readonly strengths: readonly [number, ...number[]];
  /** The pure substance (or the strongest solution sold), per cent on the same basis. */
  readonly maxStrength: number;
  readonly how: HowCode;
  readonly cautions: readonly CautionCode[];
}

const EVERY: readonly CautionCode[] = ['never-mix', 'protection', 'nobody-in-the-water', 'children-away'];
const ACID: readonly CautionCode[] = ['into-water', 'acid-and-chlorine', 'open-outdoors', ...EVERY, 'poison-help'];
const CHLORINE: readonly CautionCode[] = ['acid-and-chlorine', 'open-outdoors', ...EVERY, 'poison-help'];
const DRY_CHLORINE: readonly CautionCode[] = ['into-water', 'keep-dry', 'stabilised-and-hypochlorite', ...CHLORINE];

const PRODUCTS: Record<ProductId, Omit<Product, 'id'>> = {
  'hydrochloric-acid': {
    purpose: 'lower-ph',
    form: 'liquid',
    basis: 'by-mass',
    strengths: [31.45, 33, 14.5, 10],
    maxStrength: 38,
    how: 'pour-at-the-return',
    cautions: ACID,
  },
  'sodium-bisulfate': {
    purpose: 'lower-ph',
    form: 'solid',
    basis: 'by-mass',
    strengths: [93.2, 95, 100],
    maxStrength: 100,
    how: 'dissolve-in-bucket',
    cautions: ['sulfate-attacks', ...ACID],
  },
  'sodium-bicarbonate': {
    purpose: 'raise-alkalinity',
    form: 'solid',
    basis: 'by-mass',
    strengths: [100],
    maxStrength: 100,
    how: 'broadcast-over-the-deep-end',
    cautions: ['never-mix', 'nobody-in-the-water'],
  },
  'soda-ash': {
    purpose: 'raise-ph',
    form: 'solid',
    basis: 'by-mass',
    strengths: [100],
    maxStrength: 100,
    how: 'dissolve-in-bucket',
    cautions: ['into-water', 'caustic', ...EVERY],
  },
  borax: {
    purpose: 'raise-ph',
    form: 'solid',
    basis: 'by-mass',
    strengths: [100],
    maxStrength: 100,
    how: 'dissolve-in-bucket',
    cautions: EVERY,
  },
  'calcium-chloride': {
    purpose: 'raise-hardness',
    form: 'solid',
    basis: 'by-mass',
    strengths: [77, 94, 100],
    maxStrength: 100,
    how: 'dissolve-small-portions-in-cold-water',
    cautions: ['gives-heat', 'into-water', ...EVERY],
  },
  salt: {
    purpose: 'raise-salt',
    form: 'solid',
    basis: 'by-mass',
    strengths: [100],
    maxStrength: 100,
    how: 'broadcast-and-brush',
    cautions: ['nobody-in-the-water', 'salt-attacks', 'electricity'],
  },
  'cyanuric-acid': {
    purpose: 'raise-stabilizer',
    form: 'solid',
    basis: 'by-mass',
    strengths: [100],
    maxStrength: 100,
    how: 'sock-at-the-return',
    cautions: ['stabilizer-stays', 'never-mix', 'protection', 'keep-off-liner'],
  },
  'sodium-hypochlorite': {
    purpose: 'raise-chlorine',
    form: 'liquid',
    basis: 'trade-percent',
    strengths: [12.5, 10],
    maxStrength: 16,
    how: 'pour-at-the-return',
    cautions: CHLORINE,
  },
  'household-bleach': {
    purpose: 'raise-chlorine',
    form: 'liquid',
    basis: 'hypochlorite-by-mass',
    strengths: [6, 8.25, 5.25],
    maxStrength: 16,
    how: 'pour-at-the-return',
    cautions: CHLORINE,
  },
  'calcium-hypochlorite': {
    purpose: 'raise-chlorine',
    form: 'solid',
    basis: 'available-chlorine',
    strengths: [65, 68, 73],
    maxStrength: 99.1,
    how: 'as-the-label-says',
    cautions: ['keep-off-liner', ...DRY_CHLORINE],
  },
  dichlor: {
    purpose: 'raise-chlorine',
    form: 'solid',
    basis: 'available-chlorine',
    strengths: [56, 62],
    maxStrength: 64.4,
    how: 'broadcast-and-brush',
    cautions: ['stabilised-adds', 'keep-off-liner', ...DRY_CHLORINE],
  },
  trichlor: {
    purpose: 'raise-chlorine',
    form: 'solid',
    basis: 'available-chlorine',
    strengths: [90],
    maxStrength: 91.5,
    how: 'in-a-floating-feeder',
    cautions: ['stabilised-adds', ...DRY_CHLORINE],
  },
  'sodium-thiosulfate': {
    purpose: 'lower-chlorine',
    form: 'solid',
    basis: 'by-mass',
    strengths: [100],
    maxStrength: 100,
    how: 'dissolve-in-bucket',
    cautions: EVERY,
  },
};

export function product(id: ProductId): Product {
  return { id, ...PRODUCTS[id] };
}

/** What a product does to the water; thiosulfate takes chlorine out and has a move of its own. */
export type Move = Extract<ReagentId, ProductId> | 'liquid-chlorine' | 'thiosulfate';

export function moveOf(id: ProductId): Move {
  switch (id) {
    case 'sodium-thiosulfate':
      return 'thiosulfate';
    case 'sodium-hypochlorite':
    case 'household-bleach':
      return 'liquid-chlorine';
    default:
      return id;
  }
}

/**
 * mmol of the reagent in one mL of a liquid or one gram of a solid.
 * @param strength per cent on the product's basis, above 0 and at most `maxStrength`
 * @param basis of liquid chlorine, where its label differs from the product's usual one
 * @throws WaterError 'bad-strength'
 */
export function mmolPerUnit(id: ProductId, strength: number, basis?: 'by-weight' | 'by-volume'): number {
  switch (id) {
    case 'hydrochloric-acid':
      return hydrochloricMmolPerMl(strength);
    case 'sodium-hypochlorite':
      return hypochloriteMmolPerMl(basis === 'by-weight' ? { massPercent: strength } : { tradePercent: strength });
    case 'household-bleach':
      return hypochloriteMmolPerMl(basis === 'by-volume' ? { tradePercent: strength } : { massPercent: strength });
    case 'calcium-hypochlorite':
    case 'dichlor':
    case 'trichlor':
      return dryChlorineMmolPerGram(id, strength);
    case 'sodium-thiosulfate':
      return (10 * strength) / MOLAR_MASS['Na2S2O3·5H2O'];
    default:
      return mmolPerGram(id, strength);
  }
}

export function isLiquidChlorine(id: ProductId): boolean {
  return id === 'sodium-hypochlorite' || id === 'household-bleach';
}

/** Grams to a bucket of 10 litres of water, at most: warm-up and solubility. Common practice, no source. */
const PER_BUCKET: Partial<Record<ProductId, number>> = {
  'sodium-bisulfate': 500,
  'soda-ash': 1000,
  borax: 250,
  'calcium-chloride': 500,
  'sodium-thiosulfate': 1000,
};

/** Null for what isn't dissolved in a bucket. */
export function gramsPerBucket(id: ProductId): number | null {
  return PER_BUCKET[id] ?? null;
}
