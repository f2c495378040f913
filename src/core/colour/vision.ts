/**
 * How a colour looks to eyes with a colour vision deficiency, so that two colours can be compared as such an eye
 * sees them. Models of an average eye, not of anyone's.
 */
import { filterDeficiencyDeuter, filterDeficiencyProt } from 'culori/fn';
import { labToLinear, linearToLab } from './lab.ts';
import type { Triple } from './lab.ts';
import { tritanopic } from './tritan.ts';

export const DEFICIENCIES = ['protan', 'deutan', 'tritan'] as const;

export type Deficiency = (typeof DEFICIENCIES)[number];

/**
 * A Lab D65 colour as seen with the given deficiency at a strength from 0 (full colour vision) to 1 (dichromat).
 * Nothing is clipped to what a screen can show.
 *
 * Protan and deutan: Machado, Oliveira & Fernandes 2009, doi:10.1109/TVCG.2009.113, whose matrices are published for
 * strengths in tenths; a strength between is taken to the nearest. Tritan: Brettel, Vienot & Mollon 1997 at strength 1;
 * below it, mixed with full vision in proportion, which is our simplification and not in the paper.
 */
export function asSeenWith(deficiency: Deficiency, strength: number, lab: Triple): Triple {
  if (!(strength >= 0 && strength <= 1)) throw new RangeError(`strength ${strength} is not between 0 and 1`);
  const light = labToLinear(lab);
  if (deficiency !== 'tritan') return linearToLab(machado(deficiency, strength, light));
  const full = tritanopic(light);
  return linearToLab(mixed(light, full, strength));
}

/** culori holds the published table and applies it to the numbers it is given; the table is for linear light. */
function machado(deficiency: 'protan' | 'deutan', strength: number, [r, g, b]: Triple): Triple {
  const filter = deficiency === 'protan' ? filterDeficiencyProt(strength) : filterDeficiencyDeuter(strength);
  const seen = filter({ mode: 'rgb', r, g, b });
  return [seen.r, seen.g, seen.b];
}

function mixed(from: Triple, to: Triple, share: number): Triple {
  return [0, 1, 2].map((i) => from[i]! + share * (to[i]! - from[i]!)) as unknown as Triple;
}
