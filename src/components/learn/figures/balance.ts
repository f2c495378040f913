/** Figures about pH, alkalinity, hardness and the saturation index, from the equilibrium. */
import { speciate } from '../../../core/water/equilibrium.ts';
import { phWithAir } from '../../../core/water/equilibrium.ts';
import { CALCITE, CARBONIC_1, ZERO_CELSIUS } from '../../../core/water/constants.ts';
import { strongAcidToPh } from '../../../core/water/demand.ts';
import { sodaPh } from '../../../core/water/known-waters.ts';
import { add } from '../../../core/water/moves/add.ts';
import { saturationIndex } from '../../../core/water/saturation.ts';
import { hydrochloricMmolPerMl } from '../../../core/water/strength.ts';
import { ALKALINITY_PER_MMOL, HARDNESS_PER_MMOL, waterOf, type Water } from '../../../core/water/water.ts';
import { EXAMPLE_WATER, examplePoolLitres } from '../../drawings/example.ts';
import { numberText } from '../../../words/numbers.ts';
import { liquid, signed, whole } from '../../../words/figures.ts';

/** Commonest strength on labels, % by mass. */
const ACID_PERCENT = 31.45;

interface Readings {
  readonly ph?: number;
  readonly alkalinity?: number;
  readonly hardness?: number;
  readonly celsius?: number;
  readonly salt?: number;
  readonly stabilizer?: number;
}

/** The example water with some readings changed. */
export function exampleWater({ ph, alkalinity, hardness, celsius, salt, stabilizer }: Readings = {}): Water {
  return waterOf({
    ph: ph ?? EXAMPLE_WATER.ph,
    totalAlkalinity: alkalinity ?? EXAMPLE_WATER.totalAlkalinity,
    calciumHardness: hardness ?? EXAMPLE_WATER.calciumHardness,
    temperatureC: celsius ?? EXAMPLE_WATER.temperatureC,
    salt: salt ?? EXAMPLE_WATER.salt,
    cyanuricAcid: stabilizer ?? EXAMPLE_WATER.cyanuricAcid,
  });
}

export function saturation(readings: Readings): string {
  return signed(saturationIndex(exampleWater(readings)));
}

export function saturationStep({ from, to }: { from: number; to: number }): string {
  const at = (celsius: number) => saturationIndex(exampleWater({ celsius }));
  return numberText(at(to) - at(from), { decimals: 1 });
}

/** One block of a common pH scale, 0.3 apart. */
export function saturationPerPhStep(): string {
  const { ph } = EXAMPLE_WATER;
  return numberText(saturationIndex(exampleWater({ ph: ph + 0.3 })) - saturationIndex(exampleWater({ ph })), {
    decimals: 1,
  });
}

export function airPh({ alkalinity }: { alkalinity: number }): string {
  return numberText(phWithAir(exampleWater({ alkalinity })), { decimals: 1 });
}

export function acidMl({ from, to, alkalinity }: { from: number; to: number; alkalinity: number }): string {
  return liquid(acidVolume(strongAcidToPh(exampleWater({ ph: from, alkalinity }), to)));
}

export function acidForAlkalinityMl(drop: number): string {
  return liquid(acidVolume(drop / ALKALINITY_PER_MMOL));
}

function acidVolume(mmolPerLitre: number): number {
  return (mmolPerLitre * examplePoolLitres()) / hydrochloricMmolPerMl(ACID_PERCENT);
}

/** One litre of acid in the example pool, however it is poured. */
export function acidExample(): { ml: string; ph: string; alkalinity: string } {
  const millilitres = 1000;
  const mmolPerLitre = (millilitres * hydrochloricMmolPerMl(ACID_PERCENT)) / examplePoolLitres();
  const after = add(exampleWater({ ph: 7.8, alkalinity: 120 }), 'hydrochloric-acid', mmolPerLitre);
  return {
    ml: liquid(millilitres),
    ph: numberText(after.ph, { decimals: 1 }),
    alkalinity: whole(after.totalAlkalinity),
  };
}

export function phAfterAlkalinityDrop({
  ph,
  alkalinity,
  drop,
}: {
  ph: number;
  alkalinity: number;
  drop: number;
}): string {
  return numberText(add(exampleWater({ ph, alkalinity }), 'hydrochloric-acid', drop / ALKALINITY_PER_MMOL).ph, {
    decimals: 1,
  });
}

interface Stabilised {
  readonly ph: number;
  readonly stabilizer: number;
}

export function stabilizerAlkalinity({ ph, stabilizer }: Stabilised): string {
  return whole(cyanurateAlkalinity(ph, stabilizer));
}

export function carbonateAlkalinity({ total, ph, stabilizer }: Stabilised & { total: number }): string {
  return whole(total - Math.round(cyanurateAlkalinity(ph, stabilizer)));
}

function cyanurateAlkalinity(ph: number, stabilizer: number): number {
  const molar = speciate(exampleWater({ ph, stabilizer, alkalinity: 120 })).cyanurateAlkalinity;
  return molar * 1000 * ALKALINITY_PER_MMOL;
}

export function pk1(celsius: number): string {
  return numberText(-CARBONIC_1.log(celsius + ZERO_CELSIUS), { decimals: 2 });
}

export function pks(celsius: number): string {
  return numberText(-CALCITE.log(celsius + ZERO_CELSIUS), { decimals: 2 });
}

export function hardnessPerMmol(): string {
  return numberText(HARDNESS_PER_MMOL, { decimals: 1 });
}

/** pH of baking soda in distilled water: just dissolved, or once in balance with air of so much carbon dioxide, atm. */
export function sodaWaterPh(alkalinity: number, carbonDioxideAtm?: number): string {
  return numberText(sodaPh(alkalinity, carbonDioxideAtm), { decimals: 1 });
}
