/** What things are called. */
import type { HowCode, ProductId } from '../../core/water/products.ts';
import type { TargetId } from '../../core/water/targets.ts';
import type { StepKind } from '../../core/water/plan/step.ts';
import { quantityInPlan } from '../quantities.ts';

export function targetName(target: TargetId): string {
  if (target === 'combined-chlorine') return 'combined chlorine';
  if (target === 'saturation-index') return 'saturation index';
  return quantityInPlan(target);
}

const KINDS: Record<StepKind, string> = {
  clean: 'Clean and filter',
  'replace-water': 'Replace part of the water',
  'raise-alkalinity': 'Raise the alkalinity',
  'lower-ph': 'Lower the pH',
  'raise-ph': 'Raise the pH',
  aerate: 'Let air raise the pH',
  'raise-chlorine': 'Raise the free chlorine',
  'clear-algae': 'Chlorine against the algae',
  'oxidise-combined': 'Break the combined chlorine',
  'lower-chlorine': 'Take chlorine out',
  'wait-for-chlorine': 'Let the chlorine fall',
  'run-chlorinator': 'Run the chlorinator',
  'raise-salt': 'Raise the salt',
  'raise-stabilizer': 'Raise the stabilizer',
  'raise-hardness': 'Raise the calcium',
  'look-for-scale': 'Look for scale',
};

export function stepTitle(kind: StepKind): string {
  return KINDS[kind];
}

const HOW: Record<HowCode, string> = {
  'pour-at-the-return': 'Pour it slowly into the stream of a return, low over the water.',
  'broadcast-over-the-deep-end': 'Scatter it over the deep end and brush what lies on the floor.',
  'dissolve-in-bucket': 'Stir until it has dissolved, then pour that slowly around the edge.',
  'dissolve-small-portions-in-cold-water':
    'Cold water first, then the product in small portions; let it cool, and pour each bucket around the edge.',
  'broadcast-and-brush': 'Scatter it around the pool and brush until it has dissolved.',
  'as-the-label-says':
    'Dissolve it beforehand or scatter it, whichever its label says; where it says neither, scatter it over the deep end and brush.',
  'sock-at-the-return': 'Fill it into a sock or nylon bag, hang that before a return and squeeze it now and then.',
  'in-a-floating-feeder': 'Put it into a floating feeder or a feeder in the line; never into the skimmer.',
};

export function howText(how: HowCode): string {
  return HOW[how];
}

const PRODUCTS: Record<ProductId, string> = {
  'hydrochloric-acid': 'hydrochloric (muriatic) acid',
  'sodium-bisulfate': 'dry acid (sodium bisulfate)',
  'sodium-bicarbonate': 'baking soda (sodium bicarbonate)',
  'soda-ash': 'soda ash (sodium carbonate)',
  borax: 'borax',
  'calcium-chloride': 'calcium chloride',
  salt: 'pool salt',
  'cyanuric-acid': 'stabilizer (cyanuric acid)',
  'sodium-hypochlorite': 'liquid chlorine (sodium hypochlorite)',
  'household-bleach': 'plain unscented household bleach',
  'calcium-hypochlorite': 'calcium hypochlorite',
  dichlor: 'dichlor',
  trichlor: 'trichlor tablets',
  'sodium-thiosulfate': 'sodium thiosulfate',
};

/** In plain words, no brands. */
export function productName(id: ProductId): string {
  return PRODUCTS[id];
}
