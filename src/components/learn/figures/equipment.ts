/** Figures about the chlorinator and the filter of the example pool. */
import { hoursToRaise } from '../../../core/pool/chlorinator.ts';
import { MOLAR_MASS } from '../../../core/water/constants.ts';
import { EXAMPLE_WATER, examplePoolLitres } from '../../drawings/example.ts';
import { PUMP_LITRES_PER_HOUR } from './pool.ts';
import { numberText } from '../../../words/numbers.ts';
import { litresOf, percent, whole } from '../../../words/figures.ts';

/** The example chlorinator and what the example pool uses, mg/L a day. */
const CELL = { gramsPerHour: 12, setting: 1 } as const;
const DAILY_USE = 2;

export function cell(): { rating: string; dailyGrams: string; hours: string } {
  return {
    rating: `${CELL.gramsPerHour} g/h`,
    dailyGrams: `${whole((examplePoolLitres() * DAILY_USE) / 1000)} g`,
    hours: `${numberText(hoursToRaise(examplePoolLitres(), DAILY_USE, CELL), { decimals: 1 })} hours`,
  };
}

/** What to set the cell to when the pump runs so long a day; up to the next 5 %, as units are set. */
export function cellSetting({ pumpHours }: { pumpHours: number }): string {
  const share = hoursToRaise(examplePoolLitres(), DAILY_USE, CELL) / pumpHours;
  return percent(Math.ceil(share * 20) / 20);
}

/** Litres an hour at 25 °C and one atmosphere: as many molecules of hydrogen as of chlorine. */
export function cellHydrogen(): string {
  const litresPerMole = 0.082057 * 298.15;
  return `${whole((CELL.gramsPerHour / MOLAR_MASS.Cl2) * litresPerMole)}\u00a0litres`;
}

/** What backwash and rinse take with the example pump. */
export function backwash({ minutes, salt }: { minutes: number; salt: number }) {
  const out = (PUMP_LITRES_PER_HOUR * minutes) / 60;
  return {
    litres: litresOf(out, 10),
    share: percent(Math.round((1000 * out) / examplePoolLitres()) / 1000),
    salt: `${numberText((out * salt) / 1e6, { decimals: 1 })}\u00a0kg`,
    stabilizer: `${whole((out * EXAMPLE_WATER.cyanuricAcid) / 1000)}\u00a0g`,
  };
}
