/** How a colour looks to a learner: under a light, through a kind of eyes. For playing with; no light is measured. */
import { labToLinear, linearToLab, type Triple } from '../colour/lab.ts';
import { asSeenWith, type Deficiency } from '../colour/vision.ts';

export const LIGHTS = ['day', 'lamp', 'dusk'] as const;
export type Light = (typeof LIGHTS)[number];

export const EYES = ['full', 'protan', 'deutan', 'tritan', 'none'] as const satisfies readonly (
  'full' | Deficiency | 'none'
)[];
/** `none`: no colours at all, lightness alone. */
export type LearnerEyes = (typeof EYES)[number];

/**
 * Shares of linear red, green and blue. The lamp: a glowing body of 2700 K beside one of 6500 K at 610, 545 and 465 nm by
 * Planck's law, half of the cast taken away by the eyes' adaptation (a simplification of ours). Dusk: an eighth of the
 * light, the eyes adapted by half in the logarithm.
 */
const SHARES: Readonly<Record<Light, Triple>> = {
  day: [1, 1, 1],
  lamp: [1, 0.741, 0.455],
  dusk: [0.35, 0.35, 0.35],
};

/** Lab D65 in daylight to Lab D65 as it is shown. Chart and pad change alike: how inks and pads part isn't in it. */
export function appearance(lab: Triple, light: Light, eyes: LearnerEyes): Triple {
  const share = SHARES[light];
  const lit = linearToLab(labToLinear(lab).map((x, i) => x * share[i]!) as unknown as Triple);
  if (eyes === 'full') return lit;
  return eyes === 'none' ? [lit[0], 0, 0] : asSeenWith(eyes, 1, lit);
}
