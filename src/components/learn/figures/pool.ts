/** Figures about the example pool: doses, dilution, circulation, heat. */
import { heatNeeded } from '../../../core/pool/heat.ts';
import { filteredShare, turnover } from '../../../core/pool/turnover.ts';
import { reagentToReading } from '../../../core/water/demand.ts';
import { shareToReplace } from '../../../core/water/moves/dilute.ts';
import type { ReagentId } from '../../../core/water/moves/reagents.ts';
import { hypochloriteMmolPerMl, mmolPerGram } from '../../../core/water/strength.ts';
import { MOLAR_MASS } from '../../../core/water/constants.ts';
import { convert } from '../../../core/water/units.ts';
import { CHLORINE_PER_MMOL } from '../../../core/water/water.ts';
import { EXAMPLE_POOL, examplePoolLitres } from '../../drawings/example.ts';
import { exampleWater } from './balance.ts';
import { numberText } from '../../../words/numbers.ts';
import { liquid, litres, percent, solid, whole } from '../../../words/figures.ts';

export function poolLitres(): string {
  return litres(examplePoolLitres());
}

export function bleachMl(milligramsPerLitre: number): string {
  const mmol = (milligramsPerLitre / CHLORINE_PER_MMOL) * examplePoolLitres();
  return liquid(mmol / hypochloriteMmolPerMl({ tradePercent: 12.5 }));
}

export function bicarbonateG(rise: number): string {
  return dose('sodium-bicarbonate', 'totalAlkalinity', rise);
}

export function calciumChlorideKg(rise: number): string {
  return dose('calcium-chloride', 'calciumHardness', rise, 77);
}

export function saltKg(rise: number): string {
  return dose('salt', 'salt', rise);
}

export function stabilizerG(rise: number): string {
  return dose('cyanuric-acid', 'cyanuricAcid', rise);
}

function dose(
  reagent: ReagentId,
  reading: 'totalAlkalinity' | 'calciumHardness' | 'salt' | 'cyanuricAcid',
  rise: number,
  purityPercent = 100,
): string {
  const water = exampleWater();
  const mmolPerLitre = reagentToReading(water, reagent, reading, water[reading] + rise);
  return solid((mmolPerLitre * examplePoolLitres()) / mmolPerGram(reagent, purityPercent));
}

interface Change {
  readonly from: number;
  readonly to: number;
}

export function drainShare({ from, to, fill }: Change & { fill: number }): string {
  const share = shareToReplace(
    exampleWater({ hardness: from }),
    exampleWater({ hardness: fill }),
    'calciumHardness',
    to,
  );
  return percent(share);
}

/** What is left after so many swaps of a share, each mixed in before the next; fill water with none of it. */
export function afterSwaps({ from, share, times }: { from: number; share: number; times: number }): string {
  return whole(from * (1 - share) ** times);
}

/** Salt to which as many particles belong as tears hold: 305 mOsm/kg, White, Benjamin & Hill 1993 (302 and 308). */
export function tearSalt(): string {
  const osmolesPerKilogram = 0.305;
  return `${Math.round(((osmolesPerKilogram / 2) * MOLAR_MASS.NaCl * 1000) / 500) * 500}\u00a0mg/L`;
}

/** Rain that mixes in and runs over: so many mm on top of the depth. */
export function afterRain({ salt, rainMm, depthMm }: { salt: number; rainMm: number; depthMm: number }): string {
  return String(Math.round((salt * depthMm) / (depthMm + rainMm) / 10) * 10);
}

export function rainLoss({ rainMm, depthMm }: { rainMm: number; depthMm: number }): string {
  return percent(rainMm / (depthMm + rainMm));
}

/** Hardness that 5 mm a day of fill water at 200 mg/L brings in a month, the level kept. */
export function evaporationHardness(): string {
  const [days, millimetres, fill] = [30, 5, 200];
  return whole((days * millimetres * fill) / (EXAMPLE_POOL.waterDepthM * 1000));
}

export function germanDegree(): string {
  return numberText(convert('hardness', 1, 'dH', 'mg/L'), { decimals: 1 });
}

export function turnoverShare(turnovers: number): string {
  return percent(filteredShare(turnovers));
}

/** What the example pump really moves. */
export const PUMP_LITRES_PER_HOUR = 6000;

export function pump(): { flow: string; hours: string } {
  const { hours } = turnover(examplePoolLitres(), { litresPerHour: PUMP_LITRES_PER_HOUR, basis: 'measured' });
  return { flow: `${PUMP_LITRES_PER_HOUR / 1000} m³ an hour`, hours: `${numberText(hours, { decimals: 1 })} hours` };
}

export function heatPerDegree(): string {
  return `${whole(heatNeeded(examplePoolLitres(), 1))} kWh`;
}
