/** What is told and not treated, what it costs, and how the chlorinator is set: the lines besides the steps. */
import type { Cost, Told, Upkeep } from '../../core/water/plan/types.ts';
import { productName } from './names.ts';
import type { UnitSystem } from '../../core/water/units.ts';
import { listText, plural } from '../grammar.ts';
import { numberText } from '../numbers.ts';
import { show } from './routines.ts';

const STAINS: Record<Exclude<Told['code'], 'borate'>, string> = {
  'stains-brown':
    'Brown marks are mostly iron (well water, a rusting screw), or leaves. Not treated here: no strip sees metal. Have the water tested for iron, and no high dose of chlorine before that: it darkens them.',
  'stains-blue-green':
    'Blue-green marks are mostly copper: from a heater in acid water, or from an algaecide. Not treated here. Keep the pH at 7.2 or more, stop what brings the copper, and have the water tested.',
  'stains-black':
    'Black marks may be manganese (well water) or black algae, which a brush feels. Not treated here: have the water tested before anything is added.',
  phosphate:
    'Phosphate feeds algae, but with enough chlorine they don’t grow, whatever there is of it. No plan here sells a remover: it clouds the water and fills the filter.',
};

export function toldText(told: Told, units: UnitSystem): string {
  if (told.code !== 'borate') return STAINS[told.code];
  const { value, low, high, judgement, boricAcidGrams } = told;
  const target = `${numberText(low)} to ${numberText(high)} mg/L as boron where it is used (common practice, no source)`;
  const said = `Borate ${numberText(Math.round(value))} mg/L; ${target}.`;
  switch (judgement) {
    case 'low':
      return `${said} It steadies the pH and is optional: about ${show(units).kilograms(boricAcidGrams)} of boric acid would bring it there. Pets mustn’t drink it, and it leaves only with the water.`;
    case 'high':
      return `${said} It leaves only with the water: add no more.`;
    case 'in-range':
      return said;
  }
}

/** In the owner's own money, which has no sign here. */
export function costText({ steps, unpriced, season }: Cost): string {
  const missing =
    unpriced.length === 0
      ? ''
      : ` without ${listText(unpriced.map((id) => productName(id)))}, which ${plural(unpriced.length, 'has', 'have')} no price`;
  return [
    steps === null ? '' : `At your prices the steps cost ${money(steps)}${missing}.`,
    season === null
      ? ''
      : `Chlorine by hand costs about ${money(season.amount)} in a season of ${season.days} days as now.`,
  ]
    .filter((one) => one !== '')
    .join(' ');
}

function money(value: number): string {
  return numberText(value, { decimals: 2 });
}

type Chlorinator = Extract<Upkeep, { kind: 'chlorinator' }>;

/** What it makes against what is used. */
export function makesText({ makes, use, timer, pause }: Chlorinator): string {
  const [made, used] = [numberText(makes, { decimals: 1 }), numberText(use.value, { decimals: 1 })];
  const verdict =
    makes < 0.85 * use.value ? 'too little' : makes > 1.25 * use.value ? 'more than is used' : 'about enough';
  const off = pause ? ', once it may run again' : '';
  return `At the setting it has it makes ${made} mg/L in ${numberText(timer.hours)} hours, against ${used} used${off}: ${verdict}.`;
}

export function seasonText({ seasons, timer }: Chlorinator, units: UnitSystem): string {
  const lines = seasons.map(
    ({ temperatureC, percent }) =>
      `${show(units).degrees(temperatureC)}: ${percent > 100 ? 'more than it makes' : `${percent} %`}`,
  );
  return `Through the season, for the same ${numberText(timer.hours)} hours: ${lines.join('; ')}. Warmth doubles the use every 10 °C or so (common practice, no source); less under a cover, more in bright sun. The next tests correct it.`;
}
