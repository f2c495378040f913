/** From a water's readings to its equilibrium, and from its contents back to its pH. */
import { AIR_CO2 } from './constants.ts';
import {
  backgroundOf,
  compose,
  constantsAt,
  type Background,
  type CarbonGiven,
  type Composition,
  type ConstantsAt,
} from './composition.ts';
import { WaterError } from './errors.ts';
import { bracketedRoot, type Place } from './root.ts';
import { measuredContents, readingsOf, type Contents, type Water } from './water.ts';

/**
 * @returns all species of the water
 * @throws WaterError 'contradictory' when the alkalinity can't be that low at that pH
 */
export function speciate(water: Water, at: ConstantsAt = constantsAt(water.temperatureC)): Composition {
  const measured = measuredContents(water);
  const composition = compose(water.ph, backgroundOf(measured), measured, at);
  if (!(composition.inorganicCarbon >= 0)) throw new WaterError('contradictory');
  return composition;
}

/**
 * What the water contains, so that something can be added to it.
 * @throws WaterError as `speciate`
 */
export function contentsOf(water: Water): Contents {
  return { ...measuredContents(water), inorganicCarbon: speciate(water).inorganicCarbon };
}

/**
 * The pH at which the contents balance; nothing enters or leaves.
 * @param near where to begin looking
 * @throws WaterError 'no-equilibrium' outside pH 1-13
 */
export function phOf(contents: Contents, near = 7.5): number {
  const at = constantsAt(contents.temperatureC);
  const background = backgroundOf(contents);
  return rootPh(excessOf(contents.alkalinity, background, { inorganicCarbon: contents.inorganicCarbon }, at), near);
}

/** The water these contents make. */
export function waterFrom(contents: Contents, near?: number): Water {
  return readingsOf(contents, phOf(contents, near));
}

/**
 * The pH the water ends at when its CO2 comes into balance with air, alkalinity unchanged and nothing precipitating.
 * @param carbonDioxideAtm partial pressure of CO2 in the air
 */
export function phWithAir(water: Water, carbonDioxideAtm: number = AIR_CO2.atm): number {
  const at = constantsAt(water.temperatureC);
  const carbonDioxide = at.henry * carbonDioxideAtm;
  const measured = measuredContents(water);
  const background = backgroundOf(measured);
  return rootPh(excessOf(measured.alkalinity, background, { carbonDioxide }, at), water.ph);
}

/** Compositions whose pH differs by less are alike enough for one to lead to the other. */
const ALIKE = 0.2;

/** How much more alkalinity than there is would make the pH; each answer is a start for the next. */
function excessOf(alkalinity: number, background: Background, given: CarbonGiven, at: ConstantsAt) {
  let last: Composition | null = null;
  return (ph: number): number => {
    const near = last && Math.abs(last.ph - ph) < ALIKE && Number.isFinite(last.alkalinity) ? last : undefined;
    last = compose(ph, background, given, at, near);
    return last.alkalinity - alkalinity;
  };
}

const LOWEST = 1;
const HIGHEST = 13;

/** @param excess of alkalinity at a pH over what there is: rises with the pH */
function rootPh(excess: (ph: number) => number, near: number): number {
  let reach = 0.125;
  let inner: Place = [near, excess(near)];
  const up = inner[1] < 0;
  for (; inner[0] > LOWEST && inner[0] < HIGHEST; reach *= 2) {
    const ph = Math.min(HIGHEST, Math.max(LOWEST, up ? near + reach : near - reach));
    const outer: Place = [ph, excess(ph)];
    const root = bracketedRoot(excess, inner, outer, 1e-11);
    if (root !== null) return root;
    inner = outer;
  }
  throw new WaterError('no-equilibrium');
}
